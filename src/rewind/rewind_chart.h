#pragma once

#include "history/history.h"
#include "metrology/control_chart.h"
#include "metrology/global_risk.h"
#include "rewind/uncertain.h"
#include "rules/rules.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// One rewound coil.
struct RewoundCoil {
    Pickup pickup;
    std::string coil; ///< its name in the pickup; empty for the only one
    Moment at{};      ///< of the visit
    Uncertain value;  ///< at 20 °C where it follows the copper
};

/// What a bench makes of one coil model, rewind after rewind.
struct RewindChart {
    std::string coil_model; ///< its id
    Quantity quantity{};
    std::optional<double> frequency_hz;   ///< of the test signal; absent: any
    std::vector<RewoundCoil> coils;       ///< oldest first
    std::size_t without_reading = 0;      ///< rewinds of which this quantity was not read
    ControlChart chart;                   ///< in the SI unit of the quantity, as all that follows
    std::vector<DriftSign> signs;         ///< in the order of the points
    double measurement_uncertainty = 0.0; ///< the root mean square of the coils'
    std::optional<Interval> limits;       ///< of the coil model
    /// Of the guarded rule of `coilward confirm` on coils that are made like these; absent without limits, or
    /// where all are alike.
    std::optional<GlobalRisk> risk;
};

/// From every visit that saw a new winding of a coil of that model. Throws std::invalid_argument where fewer
/// than two can be used, or where guard_band() refuses the probability; HistoryError.
RewindChart rewind_chart(const History&, const CoilModel&, Quantity, const std::vector<BenchReading>&,
                         double conformance_probability = 0.95);

} // namespace coilward
