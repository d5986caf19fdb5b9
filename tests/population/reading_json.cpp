#include "reading_json.h"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <numbers>
#include <stdexcept>

namespace population {
namespace {

ReadingJson begin(const Question& question) {
    ReadingJson reading{{"quantity", question.quantity}};
    if (!question.between.empty()) reading["between"] = question.between;
    if (!question.circuit.empty()) reading["circuit"] = question.circuit;
    if (question.frequency_hz > 0.0) reading["frequency"] = question.frequency_hz;
    return reading;
}

} // namespace

const char* unit_of(const std::string& quantity) {
    if (quantity == "temperature") return "degC";
    if (quantity == "inductance") return "H";
    if (quantity == "capacitance") return "F";
    if (quantity == "phase_angle") return "rad";
    if (quantity == "quality_factor" || quantity == "dissipation_factor") return "1";
    return "ohm";
}

double quantity_of(const std::complex<double>& impedance, const Question& question) {
    const double omega = 2.0 * std::numbers::pi * question.frequency_hz;
    const std::complex<double> admittance = 1.0 / impedance;
    const bool parallel = question.circuit == "parallel";
    const bool series = question.circuit == "series";
    if (question.quantity == "inductance")
        return parallel ? -1.0 / (omega * admittance.imag()) : impedance.imag() / omega;
    if (question.quantity == "ac_resistance") return parallel ? 1.0 / admittance.real() : impedance.real();
    if (question.quantity == "capacitance")
        return series ? -1.0 / (omega * impedance.imag()) : admittance.imag() / omega;
    if (question.quantity == "quality_factor") return impedance.imag() / impedance.real();
    if (question.quantity == "dissipation_factor") return impedance.real() / impedance.imag();
    if (question.quantity == "impedance_magnitude") return std::abs(impedance);
    if (question.quantity == "phase_angle") return std::arg(impedance);
    throw std::invalid_argument("an LCR meter does not show " + question.quantity);
}

double rounded(double value, int significant) {
    std::array<char, 40> text{};
    std::snprintf(text.data(), text.size(), "%.*e", significant - 1, value);
    return std::strtod(text.data(), nullptr);
}

ReadingJson number(const Question& question, double value, double standard_uncertainty) {
    ReadingJson reading = begin(question);
    reading["value"] = value;
    reading["unit"] = unit_of(question.quantity);
    reading["standard_uncertainty"] = rounded(standard_uncertainty, 3);
    return reading;
}

ReadingJson wandering(const Question& question, double value, double spread) {
    ReadingJson reading = begin(question);
    reading["state"] = "unstable";
    reading["value"] = value;
    reading["spread"] = rounded(spread, 2);
    reading["unit"] = unit_of(question.quantity);
    return reading;
}

ReadingJson over_range(const Question& question, std::optional<double> limit) {
    ReadingJson reading = begin(question);
    reading["state"] = "over_range";
    if (limit) reading["limit"] = *limit;
    reading["unit"] = unit_of(question.quantity);
    return reading;
}

} // namespace population
