#pragma once

#include "coil/winding.h"
#include "rewind/spool.h"
#include "rules/coil_model.h"
#include "rules/pickup_type.h"

#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace coilward {

/// What can be known of a coil that no model fits. Each may be missing.
struct KnownOfCoil {
    const PickupType* type = nullptr; ///< its construction
    std::optional<Spool> wire;
    std::optional<Bobbin> bobbin;
    std::optional<Range> turns;              ///< central 95 %
    std::optional<double> resistance_20_ohm; ///< of one coil that is taken for sound
    std::optional<double> inductance_h;      ///< of it, series at 1 kHz
};

/// What the answers together say of a quantity.
struct ComputedRange {
    std::string quantity;       ///< "turns", "mean turn length", "DC resistance", …
    std::string unit;           ///< as in documents
    std::optional<Range> range; ///< nothing: no answer speaks of it
    std::string from;           ///< what gives it
};

/// The answers contradict each other, or are too few for a coil model. One line.
struct NoCoilModel : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// In this order: turns, mean turn length, DC resistance, inductance, quality factor, self-capacitance,
/// capacitance to the frame. Resistance is turns · mean turn length · ohm per metre; where it was read, turns
/// follow from it. Turns in a bobbin: its window, filled for 65 to 100 % of the depth with turns that lie
/// 0.55 to 1 to a square of the wire (common practice, no published source). One coil that was read stands
/// for the others within 8 % of its resistance and 12 % of its inductance (what published coil models span).
/// Throws NoCoilModel where what was read is more than four deviations from what geometry gives.
std::vector<ComputedRange> computed_ranges(const KnownOfCoil&);

/// The coil model of these answers. Throws NoCoilModel as the above, and where no resistance follows.
CoilModel computed_model(const KnownOfCoil&, std::string id, std::string title, std::string source);

} // namespace coilward
