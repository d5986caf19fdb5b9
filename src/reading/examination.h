#pragma once

#include "reading/reading.h"

#include <map>
#include <string>
#include <vector>

namespace coilward {

/// An earlier examination of this very coil.
struct EarlierExamination {
    std::string at{}; ///< RFC 3339, UTC
    bool healthy = false;
    std::vector<Reading> readings{};
};

/// All that was read of one pickup on one visit: of one coil against one coil model, or of a pickup type with
/// a coil model for each of its named coils.
struct Examination {
    std::string id{};                           ///< echoed in the answer; may be empty
    std::string coil_model{};                   ///< a coil model's id; empty where `coils` is used
    std::string pickup_type{};                  ///< a pickup type's id; empty for a single coil
    std::map<std::string, std::string> coils{}; ///< coil name → coil model id
    std::vector<Reading> readings{};
    std::vector<EarlierExamination> earlier{};
};

} // namespace coilward
