#pragma once

#include "rules/coil_model.h"
#include "rules/fault.h"
#include "rules/pickup_type.h"
#include "toml/complaint.h"

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// What a bench reading costs in time and how uncertain it is when the document does not say.
struct BenchReading {
    Quantity quantity{};
    Between between = Between::leads;
    std::optional<double> frequency_hz; ///< of the test signal; absent at direct current
    std::optional<Handling> handling;   ///< what is done to the coil meanwhile
    double seconds = 0.0;               ///< of bench time, as a rule
    double relative_uncertainty = 0.0;  ///< one standard deviation of an ordinary bench meter
    double absolute_uncertainty = 0.0;  ///< added in quadrature, SI unit of the quantity
    std::optional<double> range_limit;  ///< where an ordinary bench meter shows over-range
    std::string how;                    ///< one instruction: where the probes go
};

/// All rules of a folder.
struct Rules {
    std::vector<CoilModel> coil_models;
    std::vector<PickupType> pickup_types;
    std::vector<Fault> faults;
    std::vector<BenchReading> bench_readings;   ///< of the coil at rest
    std::vector<BenchReading> handled_readings; ///< of a coil that is warmed, pressed or freed meanwhile

    /// By its id, or nullptr.
    const CoilModel* coil_model(std::string_view id) const;
    const PickupType* pickup_type(std::string_view id) const; ///< likewise
    const Fault* fault(std::string_view id) const;            ///< likewise

    /// What a coil of this model may measure where the model is silent: the widest that any pickup type using
    /// the model allows, or any pickup type at all where none names it.
    AllowedRanges allowed(const CoilModel&) const;
};

/// A folder of rules that cannot be used. what() is the first complaint's text and how many more there are.
struct BadRules : std::runtime_error {
    /// Of at least one.
    explicit BadRules(std::vector<Complaint>);
    std::vector<Complaint> complaints; ///< by file and line
};

/// What a folder of rules holds.
struct LoadedRules {
    Rules rules;                       ///< what could be used
    std::vector<Complaint> complaints; ///< by file and line; empty where all could be used
};

/// Reads every file of the folder and returns all complaints together. A folder that is missing is a
/// complaint.
LoadedRules read_rules(const std::filesystem::path& folder);

/// The same, but throws BadRules when there is any complaint.
Rules load_rules(const std::filesystem::path& folder);

} // namespace coilward
