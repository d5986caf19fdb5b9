#pragma once

#include "diagnosis/unknown.h"
#include "reading/reading.h"

#include <array>
#include <optional>

namespace coilward {

/// What a reading would show, and how it moves with each unknown (per unit of the unknown's measure).
struct Prediction {
    double value = 0.0; ///< SI unit of the quantity
    std::array<double, unknown_count> slope{};
};

/// Predicts a reading in the form in which it is read. Nothing for a polarity or a voltage, for points
/// that the electrical model does not know, or where a resonance is asked for and there is no peak.
/// Throws as impedance() does.
std::optional<Prediction> predict(const Reading&, Primitive, const Values&);

} // namespace coilward
