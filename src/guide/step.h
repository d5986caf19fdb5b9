#pragma once

#include "diagnosis/diagnosis.h"
#include "guide/bench_meter.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// One reading to be taken, and by what.
struct Step {
    Reading question;            ///< without a value
    std::string how;             ///< where the probes go
    BenchMeter* meter = nullptr; ///< null: the person tells it
};

/// The same quantity at the same points, handled alike, near the same frequency: a meter says its own
/// frequency, such as 999.6 Hz where 1 kHz was asked for.
bool asks_the_same(const Reading&, const Reading&);

/// The next step of an examination: the temperature first, since it stands in every resistance, then the DC
/// resistance, then what tells most for its time, and at last, of a break that is decided, where it is. Only
/// what a meter at hand, or the person, can answer, and nothing of what was asked before. Nothing where no
/// reading is left that is worth its time.
std::optional<Step> next_step(const Rules&, const Diagnosis&, const std::vector<Reading>& asked,
                              std::vector<BenchMeter>&);

/// What confirming a rewind needs beside a diagnosis and was not asked yet: the polarity, the insulation to
/// the frame, an inductance (confirmation.h). Nothing where all of it was asked or none can be answered.
std::optional<Step> step_of_a_rewind(const Rules&, const std::vector<Reading>& asked,
                                     std::vector<BenchMeter>&);

/// The first meter at hand that can be set for that and is no recording; nullptr where none can.
BenchMeter* live_meter_for(const MeasurementRequest&, std::vector<BenchMeter>&);

/// What a meter is set for so that it answers the question.
MeasurementRequest request_for(const Reading& question);

} // namespace coilward
