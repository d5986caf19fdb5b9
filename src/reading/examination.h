#pragma once

#include "reading/reading.h"

#include <map>
#include <string>
#include <vector>

namespace coilward {

/// An earlier examination of this very coil.
struct EarlierExamination {
    std::string at{};     ///< RFC 3339, UTC
    bool healthy = false; ///< as that examination found
    std::vector<Reading> readings{};
};

/// How closely two coils are related.
enum class Kinship {
    twin, ///< made beside it: the same day, machine and spool; as a rule the other coil of the pickup
    set,  ///< another pickup's coil of the same set, or a neighbour from the same maker and year
};

/// An examination of another coil, made like one of those examined.
struct AlikeCoil {
    Kinship as = Kinship::set;
    std::string coil{};       ///< which of the examined coils it was made like; empty where there is one
    std::string coil_model{}; ///< its own; empty where it is the same
    bool healthy = false;     ///< as its own examination found
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
    std::vector<EarlierExamination> earlier{}; ///< taken to be oldest first
    std::vector<AlikeCoil> alike{};            ///< in any order
};

} // namespace coilward
