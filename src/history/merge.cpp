#include "history/upkeep.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

namespace coilward {
namespace {

std::string in_words(const Pickup& pickup) {
    return fmt::format("\"{}\", owner \"{}\", instrument \"{}\", type \"{}\", coils \"{}\", notes \"{}\"",
                       pickup.name, pickup.owner, pickup.instrument, pickup.pickup_type,
                       coils_in_words(pickup.coils), pickup.notes);
}

template <typename Kept>
std::set<Id> ids_of(const std::vector<Kept>& all) {
    std::set<Id> ids;
    for (const auto& each : all)
        ids.insert(each.id);
    return ids;
}

/// Those whose ids are not known yet, in their order.
template <typename Kept>
std::vector<Kept> unknown_of(const std::vector<Kept>& theirs, const std::vector<Kept>& ours) {
    const auto known = ids_of(ours);
    std::vector<Kept> fresh;
    std::ranges::copy_if(theirs, std::back_inserter(fresh),
                         [&](const Kept& each) { return !known.contains(each.id); });
    return fresh;
}

void merge_visit(History& into, const History& from, const Visit& visit, Merged& merged) {
    const auto readings = unknown_of(from.readings_of(visit.id), into.readings_of(visit.id));
    into.append_readings(readings);
    merged.readings += readings.size();
    for (const StoredVerdict& verdict : unknown_of(from.verdicts_of(visit.id), into.verdicts_of(visit.id))) {
        into.store_verdict(verdict);
        ++merged.verdicts;
    }
}

void merge_visits(History& into, const History& from, const Pickup& pickup, Merged& merged) {
    const auto theirs = from.visits_of(pickup.id);
    for (const Visit& visit : unknown_of(theirs, into.visits_of(pickup.id))) {
        into.begin_visit(visit);
        ++merged.visits;
    }
    for (const Visit& visit : theirs)
        merge_visit(into, from, visit, merged);
}

} // namespace

Merged merge(History& into, const History& from) {
    Merged merged;
    std::map<Id, Pickup> known;
    for (Pickup& pickup : into.pickups())
        known.emplace(pickup.id, std::move(pickup));
    for (const Pickup& pickup : from.pickups()) {
        const auto ours = known.find(pickup.id);
        if (ours == known.end()) {
            into.add_pickup(pickup);
            ++merged.pickups;
        } else if (in_words(ours->second) != in_words(pickup)) {
            merged.conflicts.push_back(fmt::format("pickup {}: here {}; there {}", ours->second.number,
                                                   in_words(ours->second), in_words(pickup)));
        }
        merge_visits(into, from, pickup, merged);
    }
    return merged;
}

} // namespace coilward
