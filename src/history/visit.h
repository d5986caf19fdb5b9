#pragma once

#include "history/id.h"
#include "reading/reading.h"
#include "units/moment.h"

#include <optional>
#include <string>

namespace coilward {

/// One time that a pickup lay on the bench: the readings and verdicts of one examination belong to it.
struct Visit {
    Id id;
    Id pickup;         ///< that lay there
    Moment at{};       ///< when it began
    std::string stage; ///< in the bench's own words: "as received", "after potting", …
    bool rewound =
        false;         ///< the winding is new since the visit before, so older readings are of another coil
    std::string notes; ///< may be empty

    friend bool operator==(const Visit&, const Visit&) = default;
};

/// A reading as it was taken, with the bytes it was decoded from. Never edited: a correction is another
/// reading that names this one.
struct StoredReading {
    Id id;
    Id visit;          ///< to which it belongs
    Moment at{};       ///< when it arrived; of a correction: when it was corrected
    std::string meter; ///< the driver's id, or empty where a person typed the reading in
    std::string port;  ///< where the meter was attached; may be empty
    Reading reading;
    std::string raw;            ///< the meter's bytes, unchanged; empty where there are none
    std::optional<Id> corrects; ///< the reading of the same visit that this one takes the place of
    std::string remark;         ///< why it was corrected, or anything else worth knowing

    friend bool operator==(const StoredReading&, const StoredReading&) = default;
};

/// What diagnosis concluded of one coil on one visit. Never edited; a later one takes its place.
struct StoredVerdict {
    Id id;
    Id visit;                 ///< to which it belongs
    std::string coil;         ///< the coil's name, "whole" for the joint of several, empty for the only coil
    Moment at{};              ///< when it was concluded
    std::string fault;        ///< a fault's id from the rules
    double probability = 0.0; ///< 0 to 1
    bool decided = false;     ///< its probability was what the rules ask for then
    bool healthy = false;     ///< true where that fault is no fault: its primitive changes nothing
    std::string document;     ///< the diagnosis document, JSON

    friend bool operator==(const StoredVerdict&, const StoredVerdict&) = default;
};

} // namespace coilward
