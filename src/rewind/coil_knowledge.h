#pragma once

#include "coil/air_core.h"
#include "history/history.h"
#include "rewind/plan.h"
#include "rules/rules.h"

#include <optional>

namespace coilward {

/// From a coil model's ranges (diagnosis/coil_prior.h).
CoilKnowledge knowledge_from(const CoilModel&, const AllowedRanges&);

/// Henry per turn² from a coil of the same construction whose turns and inductance are known, the rest from
/// `otherwise`. An inductance read at 1 kHz differs from that at direct current by eddy currents and
/// capacitance: 1 % is added for it (estimate). Turns and inductance must be above 0, which is not checked.
CoilKnowledge knowledge_from_sister(Uncertain turns, Uncertain inductance_h, CoilKnowledge otherwise);

/// What the geometry alone gives: no magnet, no steel. Those only add, so it is the least that the coil has;
/// no uncertainty is stated for what they add. Throws std::invalid_argument where turns or height are not
/// above 0.
double least_henry_per_turn2(const Job&, double turns);

/// What a coil measured when it was last known to be sound.
struct AsItWas {
    Moment at{}; ///< of that visit
    Uncertain resistance_20_ohm;
    std::optional<Uncertain> inductance_h;
    std::optional<double> inductance_frequency_hz; ///< of the test signal; absent without an inductance
};

/// From the latest visit of the pickup that judged this coil healthy and decided, before its winding was
/// renewed; its DC resistance is taken to 20 °C by the temperature of that visit, or 21 ± 5 °C where nobody
/// read one. Nothing where there is no such visit. Throws HistoryError, and std::invalid_argument
/// as at_20_ohm() does.
std::optional<AsItWas> as_it_was(const History&, const Pickup&, const std::string& coil);

} // namespace coilward
