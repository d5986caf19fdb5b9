#pragma once

#include "diagnosis/coil_prior.h"
#include "diagnosis/evidence.h"
#include "reading/examination.h"
#include "rules/rules.h"

#include <cstddef>
#include <cstdint>
#include <map>
#include <random>
#include <string>

namespace coilward::testing {

using Chance = std::mt19937_64;

/// The readings' density if the coil has this fault: the likelihood's mean over coils drawn from its prior.
double evidence_by_draws(const Fault&, const CoilPrior&, const Evidence&, std::size_t draws, Chance&);

/// The probability of each fault by brute force: coils with that fault are drawn from its prior, and the
/// likelihood of the readings is averaged over them. The likelihood of one coil is that of the program; what
/// is brute is the integral, which the program does by Laplace's method. It knows no blunder and no other
/// coil model, which the program asks about only where a healthy coil does not explain the readings.
std::map<std::string, double> brute_force_posterior(const Rules&, const Examination&,
                                                    std::size_t draws_a_fault, std::uint64_t seed);

} // namespace coilward::testing
