#pragma once

#include "guide/bench_meter.h"
#include "guide/person.h"
#include "guide/visit_record.h"

#include <string>
#include <vector>

namespace coilward {

/// What an examination works with. All of it outlives the examination.
struct Bench {
    const Rules& rules;
    History& history;
    const Clock& clock;              ///< for the times that are kept
    std::vector<BenchMeter>& meters; ///< at hand, recordings among them
    Person& person;
    SettlingRule settling{};                   ///< when a reading counts as settled
    std::chrono::milliseconds patience{10000}; ///< with a silent meter
};

/// How an examination ended.
struct Examined {
    Diagnosis diagnosis;           ///< of all that is kept of the coil on this visit
    std::size_t readings = 0;      ///< kept; with none there is no verdict in the history
    std::vector<std::string> lost; ///< what was wrong with each meter that was given up, one line each
};

/// Examines one coil: first takes what replayed meters give, then reading by reading what would decide
/// soonest, each on the disk before it is told, until nothing left is worth its time, of a new winding until
/// what its confirmation needs was asked, or the person stops; then keeps the verdict. A visit that the
/// history has already is gone on with: what was read of the coil is not asked again. `told` are readings
/// that are known beforehand, as the temperature. Throws CannotDiagnose, HistoryError and, for a replay that
/// is not of its driver, CannotMeasure.
Examined examine(Bench, const CoilOnBench&, const std::vector<Reading>& told);

} // namespace coilward
