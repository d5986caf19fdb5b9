#pragma once

#include "coil/impedance.h"
#include "diagnosis/read_form.h"

#include <array>

namespace coilward {

/// How well the electrical model can hold: each of its parameters stands for something that is spread along a
/// real winding, and is off by about this much, in the parameter's own measure, for each reading anew. One
/// standard deviation; it acts through the reading's derivative, so that it grows where large parts cancel (a
/// coil beside its resonance), and repeats do not average it away. Calibrated on simulated windings of many
/// sections (tests/population/README.md).
struct ModelError {
    double resistance_direct = 0.0005; ///< ohm per turn at direct current: contacts and leads
    double resistance = 0.003;         ///< ohm per turn with a test signal
    double inductance = 0.003;         ///< henry per turn²
    double eddy = 0.08;                ///< one loop stands for poles, cover and base plate
    double self_capacitance = 0.10;    ///< one capacitor stands for those of all layers
    double frame_capacitance = 0.03;   ///< the winding is not evenly near the frame
    double fault_capacitance = 0.05;   ///< of what a fault adds
    double position = 0.02;            ///< outer turns are longer than inner ones
    double bridge_share = 0.02;        ///< and so the shorted ones than the mean turn
    double bridge_share_alone = 0.08; ///< the same where the coil's own errors, which hide part of it, cancel
    /// What is left of the coil's own errors between two examinations of one coil: the winding is the same,
    /// its temperature and what lies near it are not quite. A fault's errors stay.
    double left_between_visits = 0.15;
    double resonance = 0.03;    ///< of a resonance frequency: the probe's own capacitance
    double temperature_k = 0.4; ///< coil against the thermometer beside it
};

/// The same near the coil's resonance, where the layers' capacitances and every loop of metal act each for
/// itself. Calibrated likewise, at 10 kHz.
inline constexpr ModelError error_at_high_frequency{
    .inductance = 0.01, .eddy = 0.2, .self_capacitance = 0.15};
/// And above: published resonances reach from 2 kHz with a long cable to 15 kHz without one (S09 and S04 of
/// the sources that the rules name), and bridges read pickups at 100 Hz to 1 kHz.
inline constexpr double high_frequency_hz = 2000.0;

/// The errors by parameter, squared, in the square of each parameter's measure.
using SquaredErrors = std::array<double, static_cast<std::size_t>(Parameter::count)>;

/// For a reading at this frequency; 0 is direct current. Less where an earlier examination of this coil asked
/// the same: what the model leaves out was the same then.
const SquaredErrors& squared_errors_at(double frequency_hz, bool repeats_earlier);

/// Variance of a reading through the model's errors: Σ (error · slope)², in the square of what the slopes are
/// of.
double model_variance(const ParameterSlopes&, const SquaredErrors&);

} // namespace coilward
