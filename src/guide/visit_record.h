#pragma once

#include "bench/settling.h"
#include "diagnosis/diagnosis.h"
#include "guide/bench_meter.h"
#include "history/history.h"
#include "history/kin.h"
#include "reading/examination.h"

#include <string>

namespace coilward {

/// Which coil is examined on which visit.
struct CoilOnBench {
    Pickup pickup;      ///< with its number
    std::string coil;   ///< empty for the only one
    Visit visit;        ///< new, or one that the history has
    bool alone = false; ///< not held beside what the history takes for its set
};

/// One coil's part of a visit in the history. What was kept is on the disk when the function returns; the
/// visit itself begins with the first reading, unless the history has it already. All functions throw
/// HistoryError.
class VisitRecord {
public:
    /// The history must outlive it.
    VisitRecord(History& history, CoilOnBench bench);

    /// Settled readings, each with the bytes of all that were taken for it; lines of text are parted by a
    /// newline.
    void keep(const Measured&, const BenchMeter&, const std::string& remark = {});

    /// A reading that a person told.
    void keep(const Reading&, Moment at);

    /// The verdict, with its whole document. The visit must have begun.
    void keep(const Diagnosis&, const Rules&, Moment at);

    /// What diagnosis needs: the coil's readings of this visit, its earlier visits, and its kin.
    Examination examination() const;

    /// The coils beside which it is held, as the history knew them when this record was opened.
    const std::vector<Kin>& kin() const { return kin_; }

    /// The coil's current readings of this visit, and the bench's temperature.
    std::vector<StoredReading> kept() const;

    /// How many are kept of this visit, those of an earlier sitting among them.
    std::size_t readings() const { return readings_; }

private:
    void append(std::vector<StoredReading>);

    History& history_;
    CoilOnBench bench_;
    std::vector<Kin> kin_;
    bool begun_ = false; ///< the history has the visit
    std::size_t readings_ = 0;
};

/// The coil model that the pickup names for its coil; empty where it names none.
std::string coil_model_of(const Pickup&, const std::string& coil);

} // namespace coilward
