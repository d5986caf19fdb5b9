#include "rewind/model_words.h"

#include "rewind/quantity_words.h"
#include "wire/copper.h"

#include <cmath>
#include <stdexcept>
#include <tuple>
#include <utility>

#include <fmt/format.h>

namespace coilward {
namespace {

std::optional<Spool> wire_in(const WireWords& words) {
    return words.awg == 0 && words.metric.empty() ? std::nullopt : std::optional(spool_in(words));
}

std::optional<Bobbin> bobbin_in(const BobbinWords& words) {
    const bool any = !words.core.empty() || !words.flange.empty() || !words.height.empty();
    const bool all = !words.core.empty() && !words.flange.empty() && !words.height.empty();
    if (any && !all) throw BadWords("--core", "a bobbin takes all of --core, --flange and --height");
    return all ? std::optional(job_on(words).bobbin) : std::nullopt;
}

std::optional<double> resistance_at_20(const ModelWords& words) {
    if (words.resistance.empty()) return std::nullopt;
    if (words.temperature.empty())
        throw BadWords("--temperature", "say at what temperature the resistance was read");
    return resistance_at_20_ohm(positive_in_words("--dc-resistance", words.resistance, "ohm"),
                                number_in_words("--temperature", words.temperature, "degC"));
}

Range turns_in(const std::string& words) {
    const Range turns = limits_in_words("--turns", words, "1");
    if (turns.low > 0.0 && std::isfinite(turns.high)) return turns;
    throw BadWords(
        "--turns",
        fmt::format("\"{}\" is open or not above 0; write both limits, such as 7500..8100", words));
}

const PickupType* type_in(const ModelWords& words, const Rules& rules) {
    if (words.type.empty()) return nullptr;
    if (const PickupType* type = rules.pickup_type(words.type)) return type;
    throw BadWords("--type",
                   fmt::format("no pickup type is \"{}\"; \"coilward models\" lists them", words.type));
}

std::string source_of(const KnownOfCoil& known) {
    std::string from;
    const auto add = [&](bool is_known, const std::string& what) {
        if (is_known) from += (from.empty() ? "" : ", ") + what;
    };
    add(known.type, known.type ? "the construction " + known.type->id : "");
    add(known.bobbin.has_value(), "a bobbin measured with calipers");
    add(known.wire.has_value(), known.wire ? known.wire->title : "");
    add(known.turns.has_value(), "turns as said");
    add(known.resistance_20_ohm.has_value(), "the resistance of one coil taken for sound");
    add(known.inductance_h.has_value(), "its inductance");
    return "Computed by coilward model new from " + from + ". Let measured coils narrow it.";
}

void put_measured_bobbin(CoilModel& model, const BobbinWords& words) {
    const auto size = [](const std::string& text) {
        const auto comma = text.find(',');
        const double length = positive_in_words("--core", text.substr(0, comma), "m");
        return std::pair(length, comma == std::string::npos
                                     ? length
                                     : positive_in_words("--core", text.substr(comma + 1), "m"));
    };
    std::tie(model.bobbin.core_length_m, model.bobbin.core_width_m) = size(words.core);
    std::tie(model.bobbin.flange_length_m, model.bobbin.flange_width_m) = size(words.flange);
    model.bobbin.wound_height_m = positive_in_words("--height", words.height, "m");
}

} // namespace

KnownOfCoil known_in_words(const ModelWords& words, const Rules& rules) {
    KnownOfCoil known;
    known.type = type_in(words, rules);
    known.wire = wire_in(words.wire);
    known.bobbin = bobbin_in(words.bobbin);
    if (!words.turns.empty()) known.turns = turns_in(words.turns);
    known.resistance_20_ohm = resistance_at_20(words);
    if (!words.inductance.empty())
        known.inductance_h = positive_in_words("--inductance", words.inductance, "H");
    return known;
}

CoilModel computed_model(const ModelWords& words, const Rules& rules, const std::string& id,
                         const std::string& title) {
    const KnownOfCoil known = known_in_words(words, rules);
    CoilModel model = computed_model(known, id, title.empty() ? id : title, source_of(known));
    if (words.wire.awg != 0) model.wire = {.awg = words.wire.awg};
    if (known.bobbin) put_measured_bobbin(model, words.bobbin);
    return model;
}

} // namespace coilward
