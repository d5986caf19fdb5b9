#pragma once

#include "diagnosis/in_turns.h"
#include "diagnosis/place_in_winding.h"
#include "diagnosis/polarity_finding.h"
#include "metrology/conformity.h"
#include "reading/examination.h"
#include "rules/rules.h"

#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace coilward {

/// A severity with its central 90 % (SI units).
struct Estimate {
    std::string name;   ///< the severity's, as in the fault's file
    double value = 0.0; ///< median, in the severity's SI unit
    double low = 0.0;   ///< 5 % lie below
    double high = 0.0;  ///< 5 % lie above
};

/// A fault with its probability, and how severe it is where the rules want that said.
struct FaultProbability {
    std::string fault;               ///< its id, or the joint's
    double probability = 0.0;        ///< 0 to 1
    std::vector<Estimate> estimates; ///< none where the rules want none said
};

/// A reading beside what healthy coils of the model show at the coil's temperature.
struct Comparison {
    Reading reading;
    double measured = 0.0; ///< SI unit of the quantity, as the next two
    double standard_uncertainty = 0.0;
    Range expected;                  ///< the central 95 % of healthy coils
    Standing standing{};             ///< to the range, with 95 % probability
    double probability_within = 0.0; ///< that the true value lies in the range
};

/// Why the leading fault leads: one reading, with the numbers that a person can check.
struct Reason {
    std::string reading; ///< which, in words
    std::string says;    ///< what was read, what is expected, what the fault would show
    double decibans =
        0.0; ///< 10 log10 of the likelihood ratio against healthy (or, for healthy, the runner-up)
};

/// A reading worth taking next.
struct NextReading {
    std::string reading;    ///< in words
    std::string how;        ///< what to do, as the bench rules say
    double gain_bits = 0.0; ///< expected information about which fault it is
    double seconds = 0.0;   ///< of bench time
    Reading question;       ///< what to measure, without a value
};

/// The answer for one coil.
struct Diagnosis {
    std::string id;           ///< the examination's; may be empty
    std::string coil_model;   ///< its id; empty for a pickup's whole
    FaultProbability verdict; ///< the most probable
    bool decided = false;     ///< the verdict's probability is at least what its file asks for (decide_at)
    std::vector<FaultProbability> faults;    ///< all, most probable first
    std::optional<PlaceInWinding> place;     ///< of the leading fault, where it has one
    InTurns in_turns;                        ///< the same, and its size, as a repairer counts
    std::optional<PolarityFinding> polarity; ///< where a kick or a compass was read
    std::vector<Comparison> comparisons;     ///< in the order of the readings
    std::vector<Reason> reasons;             ///< strongest first
    std::vector<NextReading> next;           ///< most information per second first
    std::vector<std::string> advice;         ///< of the verdict's file
    std::vector<std::string> cautions;       ///< likewise
    std::vector<std::string> notes;          ///< what was assumed, or left out, and why
};

/// An examination that the rules cannot judge: its coil model is unknown. One clear line.
struct CannotDiagnose : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Judges one coil (DEVELOPERS.md). Throws CannotDiagnose, and std::invalid_argument where its thermometers
/// say that copper has no resistance left (wire/copper.h).
Diagnosis diagnose(const Rules&, const Examination&);

} // namespace coilward
