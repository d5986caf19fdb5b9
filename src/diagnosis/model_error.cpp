#include "diagnosis/model_error.h"

namespace coilward {
namespace {

constexpr SquaredErrors squared_by_parameter(const ModelError& error, bool direct_current) {
    SquaredErrors squares{};
    const auto set = [&](Parameter parameter, double value) {
        squares[static_cast<std::size_t>(parameter)] = value * value;
    };
    set(Parameter::ohm_per_turn, direct_current ? error.resistance_direct : error.resistance);
    set(Parameter::henry_per_turn2, error.inductance);
    set(Parameter::eddy_share, error.eddy);
    set(Parameter::self_capacitance, error.self_capacitance);
    set(Parameter::frame_capacitance, error.frame_capacitance);
    set(Parameter::series_capacitance, error.fault_capacitance);
    set(Parameter::load_capacitance, error.fault_capacitance);
    set(Parameter::position, error.position);
    return squares;
}

constexpr SquaredErrors direct_current_errors = squared_by_parameter(ModelError{}, true);
constexpr SquaredErrors test_signal_errors = squared_by_parameter(ModelError{}, false);

} // namespace

const SquaredErrors& squared_errors_at(double frequency_hz) {
    return frequency_hz > 0.0 ? test_signal_errors : direct_current_errors;
}

double model_variance(const ReadForm& form, const ImpedanceWithGradient& z, const SquaredErrors& errors) {
    double variance = 0.0;
    for (std::size_t p = 0; p < errors.size(); ++p) {
        if (errors[p] == 0.0) continue;
        const double slope =
            form.weight.real() * z.derivative[p].real() - form.weight.imag() * z.derivative[p].imag();
        variance += errors[p] * slope * slope;
    }
    return variance;
}

} // namespace coilward
