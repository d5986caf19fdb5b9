#pragma once

#include "diagnosis/diagnosis.h"

#include <string>

/// What page, progress line and picture say alike.
namespace coilward {

/// A fault below it is left out of what people are shown.
inline constexpr double least_probability_shown = 0.005;

/// The fault's title, or its id where the rules have no such fault.
std::string title_of(const std::string& fault, const Rules&);

/// "97 %", "> 99 %", "< 1 %".
std::string percent(double share);

/// "shorted fraction: 3.1 % (90 %: 2.2 % to 3.6 %)"
std::string estimate_in_words(const Estimate&);

/// "Verdict: Some turns are shorted, > 99 %", or "Not decided; most likely: …".
std::string verdict_headline(const Diagnosis&, const Rules&);

} // namespace coilward
