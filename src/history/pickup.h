#pragma once

#include "history/id.h"
#include "units/moment.h"

#include <cstdint>
#include <string>
#include <vector>

namespace coilward {

/// One coil of a pickup and the coil model that it is held against.
struct PickupCoil {
    std::string name;       ///< as the pickup type names it; empty for the only coil of a pickup
    std::string coil_model; ///< a coil model's id

    friend bool operator==(const PickupCoil&, const PickupCoil&) = default;
};

/// A pickup as the bench knows it now. What it was called before is kept as PickupChange.
struct Pickup {
    Id id;
    std::int64_t number = 0; ///< short name on this bench, 1, 2, 3…; given by History::add_pickup
    Moment added_at{};
    std::string name; ///< what is written on its label; not empty, may be shared by several pickups
    std::string owner;
    std::string instrument;
    std::string pickup_type; ///< a pickup type's id; may be empty
    std::vector<PickupCoil> coils;
    std::string notes;

    friend bool operator==(const Pickup&, const Pickup&) = default;
};

/// A value that an edit replaced. All changes of one edit have the same `edit`.
struct PickupChange {
    Id edit;
    Moment at{};
    std::string field;  ///< name, owner, instrument, pickup_type, coils or notes
    std::string former; ///< for coils: "slug=six-slug-42 screw=six-screw-42"

    friend bool operator==(const PickupChange&, const PickupChange&) = default;
};

/// "slug=six-slug-42 screw=six-screw-42"; a nameless coil is its model alone.
std::string coils_in_words(const std::vector<PickupCoil>&);

} // namespace coilward
