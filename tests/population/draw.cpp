#include "draw.h"

#include "healthy_population.h"
#include "protocol.h"

#include <array>
#include <cstdio>
#include <fstream>
#include <stdexcept>

namespace population {
namespace {

std::string coil_id(std::uint64_t seed, int index) {
    std::array<char, 60> text{};
    std::snprintf(text.data(), text.size(), "%llu-%05d", static_cast<unsigned long long>(seed), index);
    return text.data();
}

nlohmann::ordered_json as_array(const std::vector<ReadingJson>& readings) {
    nlohmann::ordered_json array = nlohmann::ordered_json::array();
    for (const ReadingJson& reading : readings)
        array.push_back(reading);
    return array;
}

/// The resistance that the rule of thumb looks at; nothing where the ohmmeter gave no steady number.
std::optional<double> resistance_read(const std::vector<ReadingJson>& readings) {
    for (const ReadingJson& reading : readings)
        if (reading["quantity"] == "dc_resistance" && !reading.contains("state")) return reading["value"];
    return std::nullopt;
}

nlohmann::ordered_json label_of(const Construction& construction, const Coil& coil, std::string_view fault,
                                const Ailment& ailment, std::string_view protocol) {
    nlohmann::ordered_json label{{"fault", fault}};
    for (const auto& [name, value] : ailment.severities)
        label[name] = value;
    label["coil_model"] = construction.id;
    label["world"] = describe(coil.world);
    label["protocol"] = protocol;
    label["nominal_resistance"] = nominal_resistance_ohm(construction);
    return label;
}

} // namespace

DrawnCoil draw_coil(const DrawOptions& options, int index) {
    Random random(options.seed, static_cast<std::uint64_t>(index));
    const std::string_view by_mix = draw_fault(options.mix, random);
    const std::string_view fault = options.fault ? std::string_view(*options.fault) : by_mix;
    const Construction& construction = constructions()[random.below(constructions().size())];
    const std::string_view any_protocol = protocol_names()[random.below(protocol_names().size())];
    const std::string_view protocol = options.protocol == "mixed" ? any_protocol : options.protocol;
    const Coil coil = draw_healthy(construction, random).coil;
    const Ailment ailment = fault == "shorted-turns" && options.shorted_fraction
                                ? shorted_turns(*options.shorted_fraction, random)
                                : draw_ailment(fault, random);
    const auto visit = [&](const Coil& examined, const Ailment& state) {
        const Instruments instruments = draw_instruments(options.errors_joint, random);
        return examine(examined, state, instruments, random.uniform(14.0, 31.0), protocol, random);
    };
    const std::vector<ReadingJson> readings = visit(coil, ailment);

    DrawnCoil drawn;
    const std::string id = coil_id(options.seed, index);
    drawn.readings = {{"id", id}, {"coil_model", construction.id}, {"readings", as_array(readings)}};
    if (options.with_earlier)
        drawn.readings["earlier"] = {
            {{"at", "2024-03-02T10:00:00Z"}, {"healthy", true}, {"readings", as_array(visit(coil, {}))}}};
    const auto add_alike = [&](const Coil& origin, MadeAlike how, const char* as) {
        const Coil other = draw_alike(origin, how, random);
        drawn.readings["alike"].push_back(
            {{"as", as}, {"healthy", true}, {"readings", as_array(visit(other, {}))}});
    };
    const Coil of_the_set = options.set_is_another ? draw_healthy(construction, random).coil : coil;
    for (int i = 0; i < options.of_its_set; ++i)
        add_alike(of_the_set, MadeAlike::of_one_set, "set");
    if (options.with_twin) add_alike(coil, MadeAlike::twin, "twin");
    drawn.label = {{"id", id}};
    drawn.label.update(label_of(construction, coil, fault, ailment, protocol));
    if (const auto read = resistance_read(readings)) drawn.label["resistance_read"] = *read;
    return drawn;
}

void write_population(const DrawOptions& options, const std::filesystem::path& out) {
    std::filesystem::create_directories(out);
    std::ofstream readings(out / "readings.jsonl");
    std::ofstream labels(out / "labels.jsonl");
    for (int index = 0; index < options.count; ++index) {
        const DrawnCoil drawn = draw_coil(options, index);
        readings << drawn.readings.dump() << '\n';
        labels << drawn.label.dump() << '\n';
    }
    if (!readings.flush() || !labels.flush()) throw std::runtime_error(out.string() + ": cannot be written");
}

} // namespace population
