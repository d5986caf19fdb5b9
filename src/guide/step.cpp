#include "guide/step.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace coilward {
namespace {

/// Own choice: what tells less than a twentieth of a bit does not change a verdict that is decided. One that
/// is not is worth all that diagnosis lists.
constexpr double least_gain_bits_decided = 0.05;

constexpr double same_frequency = 0.02;

/// Half the winding: a verdict that leaves the place of the fault as open as this asks where it is.
constexpr double wide_position = 0.5;

bool a_person_tells(Quantity quantity) {
    return quantity == Quantity::temperature || is_polarity(quantity);
}

/// The bench file's rows of that quantity at those points.
std::vector<NextReading> on_the_bench(const Rules& rules, Quantity quantity, Between between) {
    std::vector<NextReading> rows;
    for (const BenchReading& bench : rules.bench_readings)
        if (bench.quantity == quantity && bench.between == between)
            rows.push_back(
                {.how = bench.how,
                 .question = {.quantity = quantity, .between = between, .frequency_hz = bench.frequency_hz}});
    return rows;
}

/// A gap in the wire that is found but not placed: each lead's capacitance to the frame tells on which side
/// of it how much of the winding lies.
std::vector<NextReading> that_place_the_gap(const Rules& rules, const Diagnosis& diagnosis) {
    const Fault* leader = rules.fault(diagnosis.verdict.fault);
    if (!diagnosis.decided || !leader || leader->primitive != Primitive::series_element) return {};
    std::vector<NextReading> wanted;
    for (const Estimate& estimate : diagnosis.verdict.estimates)
        if (estimate.name == "break_position" && estimate.high - estimate.low > wide_position)
            for (const Between lead : {Between::start_frame, Between::finish_frame})
                std::ranges::copy(on_the_bench(rules, Quantity::capacitance, lead),
                                  std::back_inserter(wanted));
    return wanted;
}

/// Where the probes go and how the meter is set: of a second number, as the first one's row says it.
std::string instruction_for(const Rules& rules, const NextReading& wanted, const BenchMeter* meter) {
    if (!meter || wanted.question.handling) return wanted.how;
    const MeterSetup& setup = *setup_for(*meter->driver, request_for(wanted.question));
    for (const NextReading& row : on_the_bench(rules, setup.gives.front(), wanted.question.between))
        if (row.question.frequency_hz == wanted.question.frequency_hz) return row.how;
    return wanted.how;
}

/// That reading, taken by a meter at hand or told by the person; nothing where neither can, or where it was
/// asked before.
std::optional<Step> step_for(const Rules& rules, const NextReading& wanted, const std::vector<Reading>& asked,
                             std::vector<BenchMeter>& meters) {
    const auto is_it = [&](const Reading& old) { return asks_the_same(old, wanted.question); };
    if (std::ranges::any_of(asked, is_it)) return std::nullopt;
    BenchMeter* meter = live_meter_for(request_for(wanted.question), meters);
    if (!meter && !a_person_tells(wanted.question.quantity)) return std::nullopt;
    return Step{wanted.question, instruction_for(rules, wanted, meter), meter};
}

} // namespace

BenchMeter* live_meter_for(const MeasurementRequest& request, std::vector<BenchMeter>& meters) {
    const auto found = std::ranges::find_if(meters, [&](const BenchMeter& meter) {
        return !meter.given_up && !meter.replay && setup_for(*meter.driver, request);
    });
    return found == meters.end() ? nullptr : &*found;
}

bool asks_the_same(const Reading& a, const Reading& b) {
    if (a.quantity != b.quantity || a.between != b.between || a.handling != b.handling) return false;
    if (!a.frequency_hz || !b.frequency_hz) return a.frequency_hz == b.frequency_hz;
    return std::abs(*a.frequency_hz - *b.frequency_hz) <= same_frequency * *b.frequency_hz;
}

MeasurementRequest request_for(const Reading& question) {
    return {.quantity = question.quantity,
            .frequency_hz = question.frequency_hz,
            .circuit = question.circuit,
            .between = question.between,
            .coil = question.coil};
}

std::optional<Step> next_step(const Rules& rules, const Diagnosis& diagnosis,
                              const std::vector<Reading>& asked, std::vector<BenchMeter>& meters) {
    const auto first_of = [&](const std::vector<NextReading>& all, double least_gain) {
        std::optional<Step> step;
        for (std::size_t i = 0; i < all.size() && !step; ++i)
            if (all[i].gain_bits >= least_gain) step = step_for(rules, all[i], asked, meters);
        return step;
    };
    for (const Quantity first : {Quantity::temperature, Quantity::dc_resistance})
        if (auto step = first_of(on_the_bench(rules, first, Between::leads), 0.0)) return step;
    if (auto step = first_of(diagnosis.next, diagnosis.decided ? least_gain_bits_decided : 0.0)) return step;
    return first_of(that_place_the_gap(rules, diagnosis), 0.0);
}

std::optional<Step> step_of_a_rewind(const Rules& rules, const std::vector<Reading>& asked,
                                     std::vector<BenchMeter>& meters) {
    for (const auto& [quantity, between] : {std::pair{Quantity::polarity, Between::leads},
                                            std::pair{Quantity::insulation_resistance, Between::start_frame}})
        for (const NextReading& row : on_the_bench(rules, quantity, between))
            if (auto step = step_for(rules, row, asked, meters)) return step;
    const auto is_inductance = [](const Reading& old) { return old.quantity == Quantity::inductance; };
    if (std::ranges::any_of(asked, is_inductance)) return std::nullopt;
    for (const NextReading& row : on_the_bench(rules, Quantity::inductance, Between::leads))
        if (auto step = step_for(rules, row, asked, meters)) return step;
    return std::nullopt;
}

} // namespace coilward
