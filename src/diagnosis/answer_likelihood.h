#pragma once

#include "diagnosis/evidence.h"
#include "diagnosis/read_form.h"

#include <cmath>
#include <complex>

namespace coilward {

/// How one answer judges what an impedance shows: its part of −ln(likelihood), and its first and (positive)
/// second derivative by what is looked at. The logarithm is left to be taken, so that many answers share one.
struct Judgement {
    double exponent = 0.0;      ///< ½ z² of a number; −ln of the chance of a state
    double squared_width = 1.0; ///< 2π · variance of a density; 1 for a chance
    double slope = 0.0;         ///< per unit of what is looked at
    double curvature = 0.0;     ///< above 0

    /// −ln of the density, per unit of the reading; of a state −ln of its chance.
    double cost() const { return exponent + 0.5 * std::log(squared_width); }
};

/// In which measure an answer is compared with what is predicted.
enum class Scale {
    itself,    ///< in the quantity's SI unit
    logarithm, ///< a ratio
};

/// What an answer looks at in an impedance, linearised.
struct LookedAt {
    ReadForm form; ///< in that scale
    Scale scale = Scale::itself;
};

/// For a number what is predicted itself or, where it may lie decades away, the logarithm of its ratio to the
/// answer; for a state the logarithm of the magnitude in ohm. Of quantities that follow from an impedance
/// (read_form.h) only; the angular frequency in radian per second.
LookedAt looked_at(const Answer&, std::complex<double> impedance_ohm, double angular_frequency);

/// A number costs ½((value − predicted)/deviation)² + ln(deviation √2π), where the deviation is the meter's
/// and the model's together, all in the scale of what is looked at. A state costs −ln P, where P rises from 0
/// to 1 as the impedance passes the meter's limit, less a little for a blunder (0.004: common practice, no
/// published source). `model_variance` in the square of the scale looked at.
Judgement judge(const Answer&, const LookedAt& predicted, double model_variance);

/// The same for a number that follows from no impedance, both in its unit; its deviation holds the model's
/// already.
Judgement judge(const PlainAnswer&, double predicted);

} // namespace coilward
