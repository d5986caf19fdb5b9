#pragma once

#include "diagnosis/pickup_diagnosis.h"

#include <functional>
#include <string>
#include <vector>

/// What page, progress line and picture say alike.
namespace coilward {

/// A fault below it is left out of what people are shown.
inline constexpr double least_probability_shown = 0.005;

/// The fault's title, or its id where the rules have no such fault.
std::string title_of(const std::string& fault, const Rules&);

/// What a fault or a joint is called, by its id.
using TitleOf = std::function<std::string(const std::string&)>;

/// Of the faults of a coil.
TitleOf titles_of_faults(const Rules&);

/// Of the joint between the coils of a pickup type.
TitleOf titles_of_joints(const Rules&, const std::string& pickup_type);

/// "97 %", "> 99 %", "< 1 %".
std::string percent(double share);

/// "shorted fraction: 3.1 % (90 %: 2.2 % to 3.6 %)"
std::string estimate_in_words(const Estimate&);

/// "Verdict: Some turns are shorted, > 99 %", or "Not decided; most likely: …".
std::string verdict_headline(const Diagnosis&, const TitleOf&);

/// "dual-coil-series (whole): One coil is reversed > 99 %"
std::string pickup_headline(const PickupDiagnosis&, const Rules&);

/// "about 38 turns shorted (90 %: 20 to 70), 0.4 layers"; "about 2370 turns from the start lead (…), 5530
/// from the finish lead". Nothing where nothing is counted.
std::vector<std::string> in_words(const InTurns&);

} // namespace coilward
