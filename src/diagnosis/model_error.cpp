#include "diagnosis/model_error.h"

namespace coilward {
namespace {

/// `of_coil` of the errors that lie in the coil, all of those that lie in its fault.
constexpr SquaredErrors squared_by_parameter(const ModelError& error, bool direct_current, double of_coil) {
    SquaredErrors squares{};
    const auto set = [&](Parameter parameter, double value) {
        squares[static_cast<std::size_t>(parameter)] = value * value;
    };
    set(Parameter::ohm_per_turn, of_coil * (direct_current ? error.resistance_direct : error.resistance));
    set(Parameter::henry_per_turn2, of_coil * error.inductance);
    set(Parameter::eddy_share, of_coil * error.eddy);
    // A fault opens the winding to what its capacitances do inside, which no earlier reading showed.
    set(Parameter::self_capacitance, error.self_capacitance);
    set(Parameter::frame_capacitance, error.frame_capacitance);
    set(Parameter::series_capacitance, error.fault_capacitance);
    set(Parameter::load_capacitance, error.fault_capacitance);
    set(Parameter::position, error.position);
    set(Parameter::bridge_share, of_coil < 1.0 ? error.bridge_share_alone : error.bridge_share);
    return squares;
}

/// At direct current and with a test signal.
using ByCurrent = std::array<SquaredErrors, 2>;

constexpr ByCurrent squares_with(double of_coil) {
    return {squared_by_parameter(ModelError{}, true, of_coil),
            squared_by_parameter(ModelError{}, false, of_coil)};
}

constexpr ByCurrent first_time = squares_with(1.0);
constexpr ByCurrent repeated = squares_with(ModelError{}.left_between_visits);

} // namespace

const SquaredErrors& squared_errors_at(double frequency_hz, bool repeats_earlier) {
    return (repeats_earlier ? repeated : first_time)[frequency_hz > 0.0 ? 1 : 0];
}

double model_variance(const ParameterSlopes& slopes, const SquaredErrors& errors) {
    // Four sums side by side, since each addition waits for the one before.
    constexpr std::size_t lanes = 4;
    static_assert(std::tuple_size_v<SquaredErrors> % lanes == 0);
    std::array<double, lanes> sums{};
    for (std::size_t p = 0; p < errors.size(); p += lanes)
        for (std::size_t lane = 0; lane < lanes; ++lane)
            sums[lane] += errors[p + lane] * slopes[p + lane] * slopes[p + lane];
    return (sums[0] + sums[1]) + (sums[2] + sums[3]);
}

} // namespace coilward
