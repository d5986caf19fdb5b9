#pragma once

#include "history/id.h"
#include "units/moment.h"

#include <cstdint>
#include <string>
#include <string_view>
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
    Moment added_at{};       ///< when it was kept; never changes
    std::string name;        ///< what is written on its label; not empty, may be shared by several pickups
    std::string owner;       ///< may be empty, as the next
    std::string instrument;
    std::string pickup_type;       ///< a pickup type's id; may be empty
    std::vector<PickupCoil> coils; ///< none where no coil model is known
    std::string notes;

    friend bool operator==(const Pickup&, const Pickup&) = default;
};

/// A value that an edit replaced. All changes of one edit have the same `edit`.
struct PickupChange {
    Id edit;            ///< common to all that one edit changed
    Moment at{};        ///< of the edit
    std::string field;  ///< name, owner, instrument, pickup_type, coils or notes
    std::string former; ///< for coils: "slug=six-slug-42 screw=six-screw-42"

    friend bool operator==(const PickupChange&, const PickupChange&) = default;
};

/// A value that a field of a pickup was given: when it was kept (then `edit` is the pickup's own id) or by an
/// edit.
struct PickupValue {
    Id edit;     ///< the pickup's own where it was kept with it
    Moment at{}; ///< when it was given
    std::string field;
    std::string value; ///< as in PickupChange

    friend bool operator==(const PickupValue&, const PickupValue&) = default;
};

/// name, owner, instrument, pickup_type, coils and notes, as a pickup was kept with them or has them now,
/// each as given when the pickup was kept.
std::vector<PickupValue> values_of(const Pickup&);

/// Puts the values in order, and leaves out those that are there twice: what a pickup was kept with comes
/// first, then by time, then by the edit's id, then by the value, so that every bench has the same order. The
/// last one of a field holds. `pickup` is the pickup's id.
void sort_by_time(std::vector<PickupValue>&, const Id& pickup);

/// Gives the pickup's fields the last of the values, which are in order. Throws std::invalid_argument for a
/// field that a pickup does not have.
void put_latest(const std::vector<PickupValue>&, Pickup&);

/// Each value that another took the place of, by the time of its replacement. The values are in order.
std::vector<PickupChange> changes_in(const std::vector<PickupValue>&);

/// "slug=six-slug-42 screw=six-screw-42"; a nameless coil is its model alone.
std::string coils_in_words(const std::vector<PickupCoil>&);

/// Reads that form; a word without "=" is the model of a nameless coil.
std::vector<PickupCoil> coils_from_words(std::string_view);

} // namespace coilward
