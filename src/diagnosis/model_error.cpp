#include "diagnosis/model_error.h"

#include <iterator>

namespace coilward {
namespace {

/// The parameters that have an error.
constexpr Parameter erring[] = {
    Parameter::ohm_per_turn,      Parameter::henry_per_turn2,    Parameter::self_capacitance,
    Parameter::frame_capacitance, Parameter::eddy_share,         Parameter::bridge_share,
    Parameter::position,          Parameter::series_capacitance, Parameter::load_capacitance};

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

/// By the kind of current.
struct ByCurrent {
    SquaredErrors direct;
    SquaredErrors test_signal;
    SquaredErrors high_frequency;
};

constexpr ByCurrent squares_with(double of_coil) {
    return {squared_by_parameter(ModelError{}, true, of_coil),
            squared_by_parameter(ModelError{}, false, of_coil),
            // Near the resonance a small change turns over what is shown, and nothing cancels.
            squared_by_parameter(error_at_high_frequency, false, 1.0)};
}

constexpr ByCurrent first_time = squares_with(1.0);
constexpr ByCurrent repeated = squares_with(ModelError{}.left_between_visits);

/// Whether no other parameter has an error.
constexpr bool only_erring(const SquaredErrors& errors) {
    SquaredErrors others = errors;
    for (const Parameter parameter : erring)
        others[static_cast<std::size_t>(parameter)] = 0.0;
    return others == SquaredErrors{};
}

static_assert(only_erring(first_time.direct) && only_erring(first_time.test_signal) &&
              only_erring(first_time.high_frequency));

} // namespace

const SquaredErrors& squared_errors_at(double frequency_hz, bool repeats_earlier) {
    const ByCurrent& errors = repeats_earlier ? repeated : first_time;
    if (frequency_hz == 0.0) return errors.direct;
    return frequency_hz < high_frequency_hz ? errors.test_signal : errors.high_frequency;
}

double model_variance(const ParameterSlopes& slopes, const SquaredErrors& errors) {
    // Three sums side by side, since each addition waits for the one before.
    constexpr std::size_t lanes = 3;
    static_assert(std::size(erring) % lanes == 0);
    std::array<double, lanes> sums{};
    for (std::size_t i = 0; i < std::size(erring); i += lanes)
        for (std::size_t lane = 0; lane < lanes; ++lane) {
            const auto p = static_cast<std::size_t>(erring[i + lane]);
            sums[lane] += errors[p] * slopes[p] * slopes[p];
        }
    return sums[0] + sums[1] + sums[2];
}

} // namespace coilward
