#pragma once

#include <optional>

namespace coilward {

struct CoilModel;
struct FaultPosterior;

/// A number of turns or layers with its central 90 %.
struct Counted {
    double value = 0.0; ///< median
    double low = 0.0;   ///< 5 % lie below
    double high = 0.0;  ///< 5 % lie above
};

/// The leading fault's size or place as a repairer counts it. Only what the fault has, and only where the
/// coil model says how many turns a coil has; layers where it also says how high the winding is.
struct InTurns {
    std::optional<Counted> shorted;        ///< turns
    std::optional<Counted> shorted_layers; ///< as many, were they wound turn beside turn
    std::optional<Counted> from_start;     ///< turns from the start lead to the place
    std::optional<Counted> from_finish;    ///< turns from the finish lead

    /// Whether there is anything to say.
    bool any() const { return shorted || from_start; }
};

/// Empty for the fault that is in no list. Distances are kept between 0 and the most turns that the model
/// allows.
InTurns in_turns(const FaultPosterior&, const CoilModel&);

} // namespace coilward
