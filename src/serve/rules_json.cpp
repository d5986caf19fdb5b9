#include "serve/rules_json.h"

#include "reading/json_line.h"
#include "units/engineering.h"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

void put_range(Json& ranges, const std::string& what, const std::optional<Range>& range, const char* unit) {
    if (!range) return;
    ranges.push_back({{"what", what},
                      {"range", {range->low, range->high}},
                      {"unit", unit},
                      {"words", engineering_range(range->low, range->high, unit)}});
}

std::string wire_in_words(const ConductorChoice& wire) {
    const std::string size = wire.awg ? fmt::format("{} AWG", *wire.awg)
                             : wire.conductor_diameter_m
                                 ? engineering_shortest(*wire.conductor_diameter_m, "m")
                                 : "";
    return size.empty() || wire.insulation.empty() ? size + wire.insulation : size + ", " + wire.insulation;
}

Json form_of(const CoilModel& model) {
    const std::string at = " at " + engineering_shortest(model.test_frequency_hz, "Hz");
    Json ranges = Json::array();
    put_range(ranges, "DC resistance at 20 °C", model.dc_resistance_ohm, "ohm");
    put_range(ranges, fmt::format("{} inductance{}", name(model.circuit), at), model.inductance_h, "H");
    put_range(ranges, "quality factor" + at, model.quality_factor, "1");
    put_range(ranges, "capacitance across the leads", model.self_capacitance_f, "F");
    put_range(ranges, "capacitance to the frame", model.frame_capacitance_f, "F");
    put_range(ranges, "turns", model.turns, "1");
    put_range(ranges, "mean turn length", model.mean_turn_length_m, "m");
    return {{"id", model.id},
            {"title", model.title},
            {"source", model.source},
            {"wire", wire_in_words(model.wire)},
            {"ranges", std::move(ranges)}};
}

Json form_of(const PickupType& type) {
    Json coils = Json::array();
    for (const CoilPlace& coil : type.coils)
        coils.push_back({{"name", type.coils.size() == 1 ? "" : coil.name}, {"models", coil.models}});
    return {{"id", type.id}, {"title", type.title}, {"coils", std::move(coils)}};
}

Json form_of(const Fault& fault) {
    constexpr std::array<const char*, 3> statuses{"draft", "checked", "proven"};
    Json signs = Json::array();
    for (const Sign& sign : fault.signs)
        signs.push_back({{"reading", sign.reading}, {"shows", sign.shows}});
    return {{"id", fault.id},
            {"title", fault.title},
            {"status", statuses.at(static_cast<std::size_t>(fault.status))},
            {"prior", fault.prior},
            {"decide_at", fault.decide_at},
            {"signs", std::move(signs)},
            {"advice", fault.advice},
            {"cautions", fault.cautions}};
}

template <typename Item>
std::string list(const char* name, const std::vector<Item>& items) {
    Json forms = Json::array();
    for (const Item& item : items)
        forms.push_back(form_of(item));
    return on_one_line(Json{{name, std::move(forms)}});
}

} // namespace

std::string coil_models_to_json(const Rules& rules) {
    return list("coil_models", rules.coil_models);
}

std::string pickup_types_to_json(const Rules& rules) {
    return list("pickup_types", rules.pickup_types);
}

std::string faults_to_json(const Rules& rules) {
    auto faults = rules.faults;
    std::ranges::stable_sort(faults, std::greater{}, &Fault::prior);
    return list("faults", faults);
}

} // namespace coilward
