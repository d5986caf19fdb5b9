#pragma once

#include "history/pickup.h"
#include "rules/rules.h"

#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace coilward {

/// What the words of `pickup add` and `pickup edit` say of a pickup; what they do not mention is absent.
struct PickupWords {
    std::optional<std::string> name;
    std::optional<std::string> owner;
    std::optional<std::string> instrument;
    std::optional<std::string> notes;
    std::optional<std::string> pickup_type; ///< its id
    std::optional<std::string> coil_model;  ///< of the only coil
    std::vector<std::string> coils;         ///< "NAME=MODEL", of several
};

/// The options that fill those words.
void add_pickup_options(CLI::App&, PickupWords&);

/// True where none of them was given.
bool says_nothing(const PickupWords&);

/// True where the words name a pickup type or coil models, which the rules must know.
bool names_kind(const PickupWords&);

/// Puts what was said into the pickup. Throws CLI::ValidationError.
void apply(const PickupWords&, Pickup&);

/// Throws CLI::ValidationError where the rules do not know the pickup's type or models, or its coils are not
/// those of its type.
void require_known_kind(const Rules&, const Pickup&);

} // namespace coilward
