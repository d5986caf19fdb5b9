#include "history/whole_pickup.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>

namespace coilward {
namespace {

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

using FieldValues = std::map<std::string, std::vector<PickupValue>>;

FieldValues by_field(const std::vector<PickupValue>& values) {
    FieldValues fields;
    for (const PickupValue& value : values)
        fields[value.field].push_back(value);
    return fields;
}

bool has_edit(const std::vector<PickupValue>& values, const PickupValue& wanted) {
    return std::ranges::any_of(values, [&](const PickupValue& value) {
        return value.edit == wanted.edit && value.value == wanted.value;
    });
}

bool tells_something_new(const std::vector<PickupValue>& news, const std::vector<PickupValue>& known) {
    return std::ranges::any_of(news, [&](const PickupValue& value) { return !has_edit(known, value); });
}

/// Fields that were edited on both benches since they last agreed, to different ends.
std::vector<std::string> edit_conflicts(const Pickup& now, const std::vector<PickupValue>& ours,
                                        const std::vector<PickupValue>& theirs) {
    std::vector<std::string> conflicts;
    const auto of_theirs = by_field(theirs);
    std::map<std::string, std::string> holds;
    for (const PickupValue& value : values_of(now))
        holds[value.field] = value.value;
    for (const auto& [field, here] : by_field(ours)) {
        const auto found = of_theirs.find(field);
        if (found == of_theirs.end()) continue;
        const auto& there = found->second;
        if (here.back().value != there.back().value && tells_something_new(here, there) &&
            tells_something_new(there, here))
            conflicts.push_back(
                fmt::format("pickup {}: {} is \"{}\" here and \"{}\" there; \"{}\", given later, holds",
                            now.number, field, here.back().value, there.back().value, holds[field]));
    }
    return conflicts;
}

/// Readings that each bench has corrected in its own way.
std::vector<std::string> correction_conflicts(const std::vector<StoredReading>& ours,
                                              const std::vector<StoredReading>& theirs) {
    std::map<Id, const StoredReading*> corrected_here;
    for (const StoredReading& reading : ours)
        if (reading.corrects) corrected_here[*reading.corrects] = &reading;
    const auto known = ids_of(ours);
    std::vector<std::string> conflicts;
    for (const StoredReading& reading : theirs) {
        if (!reading.corrects || known.contains(reading.id)) continue;
        const auto here = corrected_here.find(*reading.corrects);
        if (here == corrected_here.end()) continue;
        const auto& later = std::tie(here->second->at, here->second->id) < std::tie(reading.at, reading.id)
                                ? reading
                                : *here->second;
        conflicts.push_back(fmt::format("reading {}: corrected here by {} and there by {}; {} was made later",
                                        text_of(*reading.corrects), text_of(here->second->id),
                                        text_of(reading.id), text_of(later.id)));
    }
    return conflicts;
}

void adopt_visit(History& into, const WholeVisit& theirs, Adopted& adopted) {
    const auto ours = into.readings_of(theirs.visit.id);
    std::ranges::move(correction_conflicts(ours, theirs.readings), std::back_inserter(adopted.conflicts));
    const auto readings = unknown_of(theirs.readings, ours);
    into.adopt_readings(readings);
    adopted.readings += readings.size();
    for (const auto& verdict : unknown_of(theirs.verdicts, into.verdicts_of(theirs.visit.id))) {
        into.store_verdict(verdict);
        ++adopted.verdicts;
    }
}

void adopt_visits(History& into, const WholePickup& theirs, Adopted& adopted) {
    const auto known = ids_of(into.visits_of(theirs.pickup.id));
    for (const WholeVisit& visit : theirs.visits) {
        if (!known.contains(visit.visit.id)) {
            into.begin_visit(visit.visit);
            ++adopted.visits;
        }
        adopt_visit(into, visit, adopted);
    }
}

void adopt_description(History& into, const WholePickup& theirs, Adopted& adopted) {
    const bool known = into.pickup(theirs.pickup.id).has_value();
    const auto ours = known ? into.values_of(theirs.pickup.id) : std::vector<PickupValue>{};
    const std::size_t values = into.adopt_pickup(theirs.pickup, theirs.values);
    if (!known) {
        ++adopted.pickups;
        return;
    }
    adopted.values += values;
    std::ranges::move(edit_conflicts(*into.pickup(theirs.pickup.id), ours, theirs.values),
                      std::back_inserter(adopted.conflicts));
}

} // namespace

WholePickup whole_pickup(const History& history, const Pickup& pickup) {
    WholePickup whole{.pickup = pickup,
                      .values = history.values_of(pickup.id),
                      .visits = {},
                      .attachments = history.attachments_of(pickup.id),
                      .contents = {}};
    for (const Visit& visit : history.visits_of(pickup.id))
        whole.visits.push_back({visit, history.readings_of(visit.id), history.verdicts_of(visit.id)});
    for (const Attachment& attachment : whole.attachments)
        whole.contents.emplace(attachment.content, history.content(attachment.content));
    return whole;
}

std::vector<Pickup> pickups_by_age(const History& history) {
    auto pickups = history.pickups();
    std::ranges::sort(pickups, {},
                      [](const Pickup& pickup) { return std::pair(pickup.added_at, pickup.id); });
    return pickups;
}

void adopt(History& into, const WholePickup& theirs, Adopted& adopted) {
    into.all_or_nothing([&] {
        adopt_description(into, theirs, adopted);
        adopt_visits(into, theirs, adopted);
        for (const auto& attachment : unknown_of(theirs.attachments, into.attachments_of(theirs.pickup.id))) {
            into.attach(attachment, theirs.contents.at(attachment.content));
            ++adopted.attachments;
        }
    });
}

} // namespace coilward
