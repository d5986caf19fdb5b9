#include "history/examination_of.h"

#include "history/coil_readings.h"

#include <algorithm>

namespace coilward {
namespace {

/// What the visit tells of the coils that were healthy then, with the bench's temperature; nothing where it
/// tells of none.
std::optional<EarlierExamination> healthy_part(const History& history, const Visit& visit) {
    const auto coils = coils_judged_sound(history, visit);
    auto readings = readings_that_hold(history, visit);
    std::erase_if(readings, [&](const Reading& reading) {
        return !coils.contains(reading.coil) && !is_bench_temperature(reading);
    });
    if (std::ranges::all_of(readings, is_bench_temperature)) return std::nullopt;
    return EarlierExamination{.at = text_of(visit.at), .healthy = true, .readings = std::move(readings)};
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
    examination.readings = readings_that_hold(history, visit);
    for (const auto& former : earlier_visits_of_this_winding(history, visit))
        if (auto part = healthy_part(history, former)) examination.earlier.push_back(*std::move(part));
    return examination;
}

} // namespace coilward
