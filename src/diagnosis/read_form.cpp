#include "diagnosis/read_form.h"

#include <cmath>

namespace coilward {
namespace {

using Complex = std::complex<double>;
constexpr Complex minus_j{0.0, -1.0};

ReadForm series_form(Quantity quantity, Complex z, double omega) {
    const double x = z.imag();
    switch (quantity) {
    case Quantity::inductance:
        return {x / omega, minus_j / omega};
    case Quantity::capacitance:
        return {-1.0 / (omega * x), minus_j / (omega * x * x)};
    default:
        return {z.real(), 1.0};
    }
}

ReadForm parallel_form(Quantity quantity, Complex z, double omega) {
    const Complex y = 1.0 / z;
    const Complex y2 = y * y; // dY = −Y² dZ
    switch (quantity) {
    case Quantity::inductance:
        return {-1.0 / (omega * y.imag()), -minus_j * y2 / (omega * y.imag() * y.imag())};
    case Quantity::capacitance:
        return {y.imag() / omega, -minus_j * y2 / omega};
    default:
        return {1.0 / y.real(), y2 / (y.real() * y.real())};
    }
}

// The same number in both circuits. A meter shows Q and D without the sign of the reactance.
ReadForm quality_form(Complex z) {
    const double q = std::abs(z.imag()) / z.real();
    return {q, (std::copysign(1.0, z.imag()) * minus_j - q) / z.real()};
}

ReadForm dissipation_form(Complex z) {
    const double x = std::abs(z.imag());
    const double d = z.real() / x;
    return {d, (1.0 - d * std::copysign(1.0, z.imag()) * minus_j) / x};
}

} // namespace

std::optional<CoilPort> port_of(Between between) {
    switch (between) {
    case Between::leads:
        return CoilPort::leads;
    case Between::start_frame:
        return CoilPort::start_frame;
    case Between::finish_frame:
        return CoilPort::finish_frame;
    case Between::leads_frame:
        return CoilPort::leads_frame;
    case Between::start_shield:
    case Between::finish_shield:
        break;
    }
    return std::nullopt;
}

Circuit usual_circuit(Quantity quantity) {
    return quantity == Quantity::capacitance ? Circuit::parallel : Circuit::series;
}

std::optional<ReadForm> read_form(Quantity quantity, Circuit circuit, Complex z, double omega) {
    switch (quantity) {
    case Quantity::dc_resistance:
    case Quantity::insulation_resistance:
        return ReadForm{z.real(), 1.0};
    case Quantity::inductance:
    case Quantity::ac_resistance:
    case Quantity::capacitance:
        return circuit == Circuit::series ? series_form(quantity, z, omega)
                                          : parallel_form(quantity, z, omega);
    case Quantity::quality_factor:
        return quality_form(z);
    case Quantity::dissipation_factor:
        return dissipation_form(z);
    case Quantity::impedance_magnitude:
        return ReadForm{std::abs(z), std::conj(z) / std::abs(z)};
    case Quantity::phase_angle:
        return ReadForm{std::arg(z), minus_j / z};
    case Quantity::temperature:
    case Quantity::dc_voltage:
    case Quantity::polarity:
    case Quantity::magnet_pole:
    case Quantity::resonance_frequency:
        return std::nullopt;
    }
    return std::nullopt;
}

} // namespace coilward
