#pragma once

#include "history/history.h"

#include <map>
#include <vector>

namespace coilward {

/// A visit with all that was read and judged in it.
struct WholeVisit {
    Visit visit;
    std::vector<StoredReading> readings; ///< as History::readings_of has them
    std::vector<StoredVerdict> verdicts; ///< as History::verdicts_of has them
};

/// All that a history has of one pickup: what is exported, imported, merged and moved.
struct WholePickup {
    Pickup pickup;
    std::vector<PickupValue> values; ///< by time
    std::vector<WholeVisit> visits;
    std::vector<Attachment> attachments;
    std::map<ContentHash, std::string> contents; ///< the attached files' bytes
};

/// All that the history has of it, each list oldest first. Throws HistoryError.
WholePickup whole_pickup(const History&, const Pickup&);

/// By the time at which each was first kept, then by id: an order that every bench agrees on. Throws
/// HistoryError.
std::vector<Pickup> pickups_by_age(const History&);

/// What was taken over from another history.
struct Adopted {
    std::size_t pickups = 0; ///< new here, as all that follows
    std::size_t values = 0;  ///< edits of pickups that were known already
    std::size_t visits = 0;
    std::size_t readings = 0;
    std::size_t verdicts = 0;
    std::size_t attachments = 0;
    std::vector<std::string> conflicts; ///< what the two tell differently, and which holds now
};

/// Takes over what the history has not of the pickup, all or nothing. Throws HistoryError.
void adopt(History& into, const WholePickup&, Adopted&);

} // namespace coilward
