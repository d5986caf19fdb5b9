#include "history/examination_of.h"

#include <algorithm>
#include <map>
#include <set>

namespace coilward {
namespace {

/// The coils whose last verdict on that visit was healthy and decided.
std::set<std::string> healthy_coils(const std::vector<StoredVerdict>& verdicts_oldest_first) {
    std::map<std::string, bool> healthy;
    for (const auto& verdict : verdicts_oldest_first)
        healthy[verdict.coil] = verdict.healthy && verdict.decided;
    std::set<std::string> coils;
    for (const auto& [coil, is_healthy] : healthy)
        if (is_healthy) coils.insert(coil);
    return coils;
}

std::vector<Reading> plain(const std::vector<StoredReading>& stored) {
    std::vector<Reading> readings;
    for (const auto& [id, visit, at, meter, port, reading, raw, corrects, remark] : current_readings(stored))
        readings.push_back(reading);
    return readings;
}

bool is_bench_temperature(const Reading& reading) {
    return reading.quantity == Quantity::temperature && reading.coil.empty();
}

/// What the visit tells of the coils that were healthy then, with the bench's temperature; nothing where it
/// tells of none.
std::optional<EarlierExamination> healthy_part(const History& history, const Visit& visit) {
    const auto coils = healthy_coils(history.verdicts_of(visit.id));
    auto readings = plain(history.readings_of(visit.id));
    std::erase_if(readings, [&](const Reading& reading) {
        return !coils.contains(reading.coil) && !is_bench_temperature(reading);
    });
    if (std::ranges::all_of(readings, is_bench_temperature)) return std::nullopt;
    return EarlierExamination{.at = text_of(visit.at), .healthy = true, .readings = std::move(readings)};
}

/// What that visit tells of one coil, with the bench's temperature, as of a pickup that has no other.
std::vector<Reading> readings_of_coil(const History& history, const Visit& visit, const std::string& coil) {
    auto readings = plain(history.readings_of(visit.id));
    std::erase_if(readings, [&](const Reading& reading) {
        return reading.coil != coil && !is_bench_temperature(reading);
    });
    for (Reading& reading : readings)
        reading.coil.clear();
    return readings;
}

/// The visits before this one that saw the winding it sees, oldest first.
std::vector<Visit> earlier_visits_of_this_winding(const History& history, const Visit& visit) {
    auto visits = history.visits_of(visit.pickup);
    visits.erase(std::ranges::find(visits, visit.id, &Visit::id), visits.end());
    if (visit.rewound) return {};
    const auto newest_rewound =
        std::find_if(visits.rbegin(), visits.rend(), [](const Visit& v) { return v.rewound; });
    if (newest_rewound != visits.rend()) visits.erase(visits.begin(), newest_rewound.base() - 1);
    return visits;
}

} // namespace

Examination examination_of(const History& history, const Pickup& pickup, const Visit& visit) {
    Examination examination;
    examination.id = text_of(visit.id);
    if (pickup.coils.size() == 1 && pickup.coils.front().name.empty())
        examination.coil_model = pickup.coils.front().coil_model;
    else {
        examination.pickup_type = pickup.pickup_type;
        for (const auto& [name, coil_model] : pickup.coils)
            examination.coils[name] = coil_model;
    }
    examination.readings = plain(history.readings_of(visit.id));
    for (const auto& former : earlier_visits_of_this_winding(history, visit))
        if (auto part = healthy_part(history, former)) examination.earlier.push_back(*std::move(part));
    return examination;
}

std::vector<AlikeCoil> alike_coils_of(const History& history, const Pickup& other, Kinship as,
                                      const Pickup& examined) {
    std::vector<AlikeCoil> alike;
    const auto visits = history.visits_of(other.id);
    for (const auto& [name, coil_model] : other.coils) {
        if (std::ranges::count(examined.coils, name, &PickupCoil::name) == 0) continue;
        const auto newest =
            std::find_if(visits.rbegin(), visits.rend(), [&history, &coil = name](const Visit& visit) {
                return healthy_coils(history.verdicts_of(visit.id)).contains(coil);
            });
        if (newest != visits.rend())
            alike.push_back({.as = as,
                             .coil = name,
                             .coil_model = coil_model,
                             .healthy = true,
                             .readings = readings_of_coil(history, *newest, name)});
    }
    return alike;
}

std::optional<Examination> latest_examination_of(const History& history, const Pickup& pickup) {
    const auto visits = history.visits_of(pickup.id);
    if (visits.empty()) return std::nullopt;
    return examination_of(history, pickup, visits.back());
}

} // namespace coilward
