#include "meter/uncertainty.h"

#include "metrology/accuracy.h"
#include "metrology/half_width.h"

#include <algorithm>
#include <cmath>

namespace coilward {
namespace {

bool covers(const AccuracyRow& row, const Reading& reading) {
    if (row.quantity != reading.quantity || !reading.value) return false;
    if (row.up_to && std::abs(*reading.value) > *row.up_to) return false;
    if (!row.lowest_frequency_hz) return true;
    return reading.frequency_hz && *reading.frequency_hz >= *row.lowest_frequency_hz &&
           *reading.frequency_hz <= *row.highest_frequency_hz;
}

ImpedancePart part_of(Quantity quantity) {
    return quantity == Quantity::ac_resistance ? ImpedancePart::resistive : ImpedancePart::reactive;
}

/// By how much the percentage grows at this Q; nothing where the row needs Q and it is not known.
std::optional<double> multiplier_of(const AccuracyRow& row, std::optional<double> quality_factor) {
    if (!row.worse_at_low_quality) return 1.0;
    if (!quality_factor || !(std::abs(*quality_factor) > 0.0)) return std::nullopt;
    return low_quality_factor_multiplier(part_of(row.quantity), std::abs(*quality_factor));
}

std::optional<double> value_of(const DecodedReadings& readings, Quantity quantity) {
    for (const DecodedReading& each : readings)
        if (each.reading.quantity == quantity) return each.reading.value;
    return std::nullopt;
}

} // namespace

std::optional<double> standard_uncertainty(const Driver& driver, const DecodedReading& decoded,
                                           std::optional<double> quality_factor) {
    const auto row = std::ranges::find_if(
        driver.accuracy, [&](const AccuracyRow& each) { return covers(each, decoded.reading); });
    if (row == driver.accuracy.end()) return std::nullopt;
    const auto multiplier = multiplier_of(*row, quality_factor);
    if (!multiplier) return std::nullopt;
    const Accuracy accuracy{.percent_of_reading = row->percent * *multiplier,
                            .counts = row->counts,
                            .least_digit = decoded.resolution};
    return half_width_to_standard_uncertainty(half_width(accuracy, *decoded.reading.value));
}

std::optional<double> quality_factor_of(const DecodedReadings& readings) {
    if (const auto q = value_of(readings, Quantity::quality_factor)) return q;
    if (const auto d = value_of(readings, Quantity::dissipation_factor); d && *d != 0.0) return 1.0 / *d;
    const auto inductance = value_of(readings, Quantity::inductance);
    const auto resistance = value_of(readings, Quantity::ac_resistance);
    // A meter at its limits shows negative resistances; they tell no Q.
    if (!inductance || !resistance || !(*resistance > 0.0) || *inductance == 0.0) return std::nullopt;
    const Reading& first = readings.front().reading;
    if (!first.frequency_hz) return std::nullopt;
    const double series_q = series_quality_factor(*first.frequency_hz, *inductance, *resistance);
    return first.circuit == Circuit::parallel ? 1.0 / series_q : series_q; // parallel: Q = R / (2πfL)
}

} // namespace coilward
