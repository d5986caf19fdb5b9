#include "rewind/computed_model.h"

#include "metrology/log_normal.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

// Half of the central 95 %, as the logarithm, over that of the normal distribution.
constexpr double coil_to_coil_resistance = 0.08 / half_width_95;
constexpr double coil_to_coil_inductance = 0.12 / half_width_95;
constexpr double from_turn_to_turn_length = 0.03 / half_width_95; // how far the winding reaches is not known
constexpr Range packing_by_hand{0.55, 1.0};
constexpr Range share_of_depth{0.65, 1.0};

struct KnownAnswer {
    std::optional<LogNormal> value;
    std::string from;
};

struct Answers {
    KnownAnswer turns, mean_turn_length, resistance, inductance;
};

LogNormal around(const Uncertain& number) {
    return {number.value, number.standard_uncertainty / number.value};
}

KnownAnswer turns_that_fit(const Bobbin& bobbin, const Spool& wire) {
    const double full = turns_in_depth(bobbin.depth_m, bobbin.height_m,
                                       {.overall_diameter_m = wire.overall_diameter_m.value, .packing = 1.0});
    LogNormal turns = product(log_normal(packing_by_hand), log_normal(share_of_depth));
    turns.median *= full;
    return {turns, "what the bobbin holds"};
}

/// The turn in the middle of a winding that fills the usual share of the depth.
KnownAnswer length_in_the_middle(const Bobbin& bobbin) {
    const double depth = log_normal(share_of_depth).median * bobbin.depth_m;
    return {LogNormal{turn_length_m(outside(bobbin.core, 0.5 * depth)), from_turn_to_turn_length},
            "the bobbin"};
}

std::optional<LogNormal> by_geometry(const Answers& answers, const KnownOfCoil& known) {
    if (!answers.turns.value || !answers.mean_turn_length.value || !known.wire) return std::nullopt;
    return product(product(*answers.turns.value, *answers.mean_turn_length.value),
                   around(known.wire->ohm_per_metre_20));
}

KnownAnswer resistance_of(const Answers& answers, const KnownOfCoil& known) {
    if (known.resistance_20_ohm)
        return {LogNormal{*known.resistance_20_ohm, coil_to_coil_resistance}, "the coil that was read"};
    return {by_geometry(answers, known), "turns, their length and the wire"};
}

/// Turns from what was read, where that says more than the bobbin.
KnownAnswer turns_by_resistance(const Answers& answers, const KnownOfCoil& known) {
    if (!known.resistance_20_ohm || !answers.mean_turn_length.value || !known.wire) return answers.turns;
    const LogNormal turns =
        quotient(LogNormal{*known.resistance_20_ohm, coil_to_coil_resistance},
                 product(*answers.mean_turn_length.value, around(known.wire->ohm_per_metre_20)));
    if (answers.turns.value && answers.turns.value->deviation <= turns.deviation) return answers.turns;
    return {turns, "the resistance that was read"};
}

KnownAnswer inductance_of(const Answers& answers, const KnownOfCoil& known) {
    if (known.inductance_h)
        return {LogNormal{*known.inductance_h, coil_to_coil_inductance}, "the coil that was read"};
    if (!known.type) return {};
    const AllowedRanges& allows = known.type->allows;
    KnownAnswer answer;
    if (allows.inductance_h) answer = {log_normal(*allows.inductance_h), "the construction"};
    if (!allows.inductance_per_ohm2 || !answers.resistance.value) return answer;
    const LogNormal& r = *answers.resistance.value;
    const LogNormal tied =
        product(log_normal(*allows.inductance_per_ohm2), {r.median * r.median, 2.0 * r.deviation});
    if (answer.value && answer.value->deviation <= tied.deviation) return answer;
    return {tied, "the construction and the resistance"};
}

Answers answers_from(const KnownOfCoil& known) {
    Answers answers;
    if (known.turns)
        answers.turns = {log_normal(*known.turns), "said"};
    else if (known.bobbin && known.wire)
        answers.turns = turns_that_fit(*known.bobbin, *known.wire);
    else if (known.type && known.type->allows.turns)
        answers.turns = {log_normal(*known.type->allows.turns), "the construction"};
    if (known.bobbin) answers.mean_turn_length = length_in_the_middle(*known.bobbin);
    answers.resistance = resistance_of(answers, known);
    const auto geometry = by_geometry(answers, known);
    constexpr double most_deviations = 4.0;
    if (known.resistance_20_ohm && geometry &&
        std::abs(deviations_to(*geometry, *known.resistance_20_ohm)) > most_deviations)
        throw NoCoilModel(
            fmt::format("the coil read {:.0f} ohm, but these turns of this wire come to {:.0f} to "
                        "{:.0f} ohm: check gauge, bobbin and turns, or whether the coil is sound",
                        *known.resistance_20_ohm, central_95(*geometry).low, central_95(*geometry).high));
    answers.turns = turns_by_resistance(answers, known);
    answers.inductance = inductance_of(answers, known);
    return answers;
}

ComputedRange range_of(const char* quantity, const char* unit, const KnownAnswer& answer) {
    return {quantity, unit, answer.value ? std::optional(central_95(*answer.value)) : std::nullopt,
            answer.value ? answer.from : ""};
}

ComputedRange allowed(const char* quantity, const char* unit, const std::optional<Range>& range) {
    return {quantity, unit, range, range ? "the construction" : ""};
}

} // namespace

std::vector<ComputedRange> computed_ranges(const KnownOfCoil& known) {
    const Answers answers = answers_from(known);
    const AllowedRanges allows = known.type ? known.type->allows : AllowedRanges{};
    return {range_of("turns", "1", answers.turns),
            range_of("mean turn length", "m", answers.mean_turn_length),
            range_of("DC resistance", "ohm", answers.resistance),
            range_of("inductance", "H", answers.inductance),
            allowed("quality factor", "1", allows.quality_factor),
            allowed("self-capacitance", "F", allows.self_capacitance_f),
            allowed("capacitance to the frame", "F", allows.frame_capacitance_f)};
}

CoilModel computed_model(const KnownOfCoil& known, std::string id, std::string title, std::string source) {
    const std::vector<ComputedRange> ranges = computed_ranges(known);
    if (!ranges[2].range)
        throw NoCoilModel(
            "no range of resistance follows yet: say the wire and the bobbin, or the resistance "
            "of a coil that is taken for sound");
    CoilModel model{.id = std::move(id), .title = std::move(title), .source = std::move(source), .file = {}};
    if (known.wire) model.wire.conductor_diameter_m = known.wire->conductor_diameter_m;
    model.turns = ranges[0].range;
    model.mean_turn_length_m = ranges[1].range;
    model.dc_resistance_ohm = *ranges[2].range;
    model.inductance_h = ranges[3].range;
    model.quality_factor = ranges[4].range;
    model.self_capacitance_f = ranges[5].range;
    model.frame_capacitance_f = ranges[6].range;
    return model;
}

} // namespace coilward
