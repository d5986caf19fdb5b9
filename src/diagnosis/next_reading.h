#pragma once

#include "diagnosis/diagnosis.h"
#include "diagnosis/posterior.h"

namespace coilward {

/// What tells less about which fault it is, is not worth asking.
inline constexpr double least_gain_bits = 0.004;

/// The question that a reading of the bench answers.
Reading question_of(const BenchReading&);

/// Already answered: the same quantity at the same points and frequency, of the coil at rest or handled
/// alike.
bool is_taken(const Reading& question, const std::vector<Reading>& taken);

/// The readings not yet taken, of the coil at rest or handled, by how much each is expected to tell about
/// which fault it is (mutual information between fault and reading, in bits; C. E. Shannon, 1948; D. V.
/// Lindley, 1956) per second of bench time. Those that tell next to nothing are left out.
std::vector<NextReading> next_readings(const Rules&, const Posterior&, const std::vector<Reading>& taken);

} // namespace coilward
