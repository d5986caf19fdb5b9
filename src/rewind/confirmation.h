#pragma once

#include "history/history.h"
#include "metrology/conformity.h"
#include "rewind/coil_knowledge.h"
#include "rewind/uncertain.h"
#include "rules/rules.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// What one quantity of the finished coil must be, at 20 °C. An end may be infinite.
struct Requirement {
    Quantity quantity{};
    std::optional<double> frequency_hz; ///< of the test signal; absent: any
    std::optional<Circuit> circuit;     ///< absent: any
    Range limits;                       ///< SI unit of the quantity
    double limits_uncertainty = 0.0;    ///< standard, of limits that were themselves measured
    std::string from;         ///< "the coil model six-rod-42", "the order", "as it was on 2026-03-02"
    bool must_be_read = true; ///< false: judged only where it was read
};

/// The limits of a coil model: its DC resistance, and what else it tells.
std::vector<Requirement> requirements_of(const CoilModel&);

/// The model's limits of inductance carried to the frequency at which it was read, at most 1.2 kHz, where
/// nothing was read at the model's own: by the ratio that the model's middle coil shows at the two. The
/// others stay.
std::vector<Requirement> at_frequencies_read(std::vector<Requirement>, const std::vector<StoredReading>&,
                                             const std::string& coil, const CoilModel&, const AllowedRanges&);

/// Within so many per cent of what the coil was.
std::vector<Requirement> requirements_of(const AsItWas&, double per_cent);

/// One quantity against its limits.
struct Checked {
    Requirement requirement;
    std::optional<StoredReading> reading; ///< absent: it was not read
    Uncertain judged;      ///< at 20 °C; its uncertainty includes those of the temperature and limits
    Conformity conformity; ///< measure better where it was not read
    std::string says;      ///< how it was corrected, or why it cannot be judged
};

/// A condition that no limit softens: continuity, polarity, insulation, and that no damage shows.
struct HardCondition {
    std::string name; ///< "continuity", "polarity", …
    Decision decision = Decision::measure_better;
    std::string says; ///< what was read, or what is to be read, in words
};

/// The turns that a reading implies, by the coil model.
struct ImpliedTurns {
    std::string from; ///< which reading, in words
    Uncertain turns;
};

/// Counter and readings, side by side. They agree where they differ by less than twice the standard
/// uncertainty of their difference.
struct TurnsCheck {
    std::optional<Uncertain> counted; ///< absent: nobody said
    std::vector<ImpliedTurns> implied;
    std::vector<std::string> says; ///< in words, one sentence each
};

/// How a rewind is to be confirmed.
struct ConfirmationRule {
    double conformance_probability =
        0.95;                           ///< guard band: its one-sided normal quantile times the uncertainty
    double least_insulation_ohm = 10e6; ///< the least that a bench expects (common practice)
    std::optional<Uncertain> temperature_c; ///< where nobody read one during the visit
    std::optional<Uncertain> counted_turns; ///< what the counter of the winder said
    std::vector<BenchReading> bench;        ///< how uncertain a reading is whose meter did not say
};

/// Whether a rewound coil is what it is to be, with all that the decision rests on.
struct Confirmation {
    Pickup pickup;
    std::string coil; ///< its name in the pickup; empty for the only one
    Visit visit;
    ConfirmationRule rule;
    Uncertain temperature_c;
    bool temperature_was_read = false; ///< false: said, or that of a usual room
    std::vector<Checked> checked;      ///< in the order of the requirements
    /// Continuity, polarity and insulation; damage where it was judged.
    std::vector<HardCondition> conditions;
    TurnsCheck turns;
    std::vector<StoredReading> readings;          ///< all current ones of the coil, with meters and times
    Decision decision = Decision::measure_better; ///< fail where anything fails, pass where everything passes
};

/// The readings of a visit that still hold and are one coil's, or are the temperature.
std::vector<StoredReading> current_readings_of_coil(const std::vector<StoredReading>&,
                                                    const std::string& coil);

/// Judges one coil's readings of a visit. `model` may be null: then nothing implies turns. `damage` is absent
/// where nothing can say whether it is damaged. Without a requirement that is judged the decision is to
/// measure better. Throws std::invalid_argument as conformity() does.
Confirmation confirm(const Pickup&, const Visit&, const std::string& coil, const std::vector<StoredReading>&,
                     const std::vector<Requirement>&, const ConfirmationRule&, const CoilModel* model,
                     const std::optional<HardCondition>& damage = {});

} // namespace coilward
