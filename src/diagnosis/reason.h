#pragma once

#include "diagnosis/coil_finding.h"

#include <numbers>

namespace coilward {

/// Reasons are told in tenths of a power of ten, decibans (I. J. Good, Probability and the Weighing of
/// Evidence, 1950).
inline constexpr double decibans_per_nat = 10.0 * std::numbers::log10e;

/// For each reading what it says for a person with a pencil: the number read, what sound coils of the model
/// show at the coil's temperature (or what this coil showed when it was sound), and what the leading fault
/// would show here (for a sound coil: the runner-up). With it how far it speaks for the leader against sound
/// (for sound: against the runner-up), strongest first; both are then taken as near to all readings together
/// as they can be.
std::vector<Reason> reasons_for(const CoilFinding&, double temperature_c);

} // namespace coilward
