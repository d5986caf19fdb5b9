#include "reading/reading.h"

#include "units/engineering.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

std::string_view spoken_name(Quantity quantity) {
    switch (quantity) {
    case Quantity::temperature:
        return "temperature";
    case Quantity::dc_resistance:
        return "DC resistance";
    case Quantity::inductance:
        return "inductance";
    case Quantity::ac_resistance:
        return "AC resistance";
    case Quantity::quality_factor:
        return "quality factor";
    case Quantity::dissipation_factor:
        return "dissipation factor";
    case Quantity::impedance_magnitude:
        return "impedance magnitude";
    case Quantity::phase_angle:
        return "phase angle";
    case Quantity::capacitance:
        return "capacitance";
    case Quantity::insulation_resistance:
        return "insulation resistance";
    case Quantity::dc_voltage:
        return "DC voltage";
    case Quantity::polarity:
        return "polarity";
    case Quantity::resonance_frequency:
        return "resonance frequency";
    case Quantity::magnet_pole:
        return "magnet pole";
    }
    return "";
}

std::string_view spoken_points(Between between) {
    switch (between) {
    case Between::leads:
        return "";
    case Between::start_frame:
        return " from start to frame";
    case Between::finish_frame:
        return " from finish to frame";
    case Between::start_shield:
        return " from start to shield";
    case Between::finish_shield:
        return " from finish to shield";
    case Between::leads_frame:
        return " from both leads to frame";
    }
    return "";
}

/// True for what the series and the parallel equivalent circuit of one impedance have different values of.
bool depends_on_circuit(Quantity quantity) {
    return quantity == Quantity::inductance || quantity == Quantity::ac_resistance ||
           quantity == Quantity::capacitance;
}

bool depends_on_points(Quantity quantity) {
    return quantity != Quantity::temperature && !is_polarity(quantity);
}

bool same_frequency(std::optional<double> a, std::optional<double> b) {
    if (!a || !b) return a == b;
    return std::abs(*a - *b) <= 1e-6 * std::max(std::abs(*a), std::abs(*b));
}

std::string spoken_coil(std::string_view coil) {
    if (coil.empty()) return "";
    if (coil == "whole") return " of the whole pickup";
    return fmt::format(" of the {} coil", coil);
}

std::string_view spoken_handling(Handling handling) {
    switch (handling) {
    case Handling::warmed:
        return " with the coil warmed";
    case Handling::pressed:
        return " with the joints pressed";
    case Handling::lifted:
        return " with the controls lifted off";
    }
    return "";
}

} // namespace

std::string describe(const Reading& reading) {
    const auto quantity = reading.quantity;
    std::string text;
    if (reading.circuit && depends_on_circuit(quantity)) text = fmt::format("{} ", name(*reading.circuit));
    text += spoken_name(quantity);
    text += spoken_coil(reading.coil);
    if (depends_on_points(quantity)) text += spoken_points(reading.between);
    if (reading.frequency_hz && needs_frequency(quantity))
        text += " at " + engineering_shortest(*reading.frequency_hz, "Hz");
    if (reading.handling) text += spoken_handling(*reading.handling);
    return text;
}

bool is_at_rest(const Reading& reading) {
    return !reading.handling && reading.quantity != Quantity::magnet_pole;
}

bool same_question(const Reading& a, const Reading& b) {
    if (a.quantity != b.quantity || a.coil != b.coil || a.handling != b.handling) return false;
    if (depends_on_points(a.quantity) && a.between != b.between) return false;
    if (depends_on_circuit(a.quantity) && a.circuit != b.circuit) return false;
    return !needs_frequency(a.quantity) || same_frequency(a.frequency_hz, b.frequency_hz);
}

} // namespace coilward
