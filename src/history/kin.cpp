#include "history/kin.h"

#include "history/coil_readings.h"

#include <algorithm>
#include <functional>
#include <iterator>

#include <fmt/format.h>

namespace coilward {
namespace {

/// The pickup's coil as the first of the visits knows it on which it was read and judged sound.
std::optional<Kin> first_sound(const History& history, const Pickup& pickup, const PickupCoil& coil,
                               const std::vector<Visit>& newest_first) {
    for (const Visit& visit : newest_first) {
        if (!coils_judged_sound(history, visit).contains(coil.name)) continue;
        auto readings = of_coil(readings_that_hold(history, visit), coil.name);
        std::erase_if(readings, std::not_fn(is_at_rest));
        if (std::ranges::all_of(readings, is_bench_temperature)) continue;
        return Kin{.coil = {.coil = coil.name,
                            .coil_model = coil.coil_model,
                            .healthy = true,
                            .readings = std::move(readings)},
                   .number = pickup.number,
                   .pickup = pickup.name,
                   .at = visit.at};
    }
    return std::nullopt;
}

/// Those of the other pickup's coils that count, so far as they were ever judged sound.
template <typename Counts>
std::vector<Kin> sound_coils(const History& history, const Pickup& other,
                             const std::vector<Visit>& newest_first, Kinship as, KnownBy known_by,
                             Counts counts) {
    std::vector<Kin> all;
    for (const PickupCoil& coil : other.coils) {
        if (!counts(coil)) continue;
        auto kin = first_sound(history, other, coil, newest_first);
        if (!kin) continue;
        kin->coil.as = as;
        kin->known_by = known_by;
        all.push_back(*std::move(kin));
    }
    return all;
}

/// The visits that saw the winding with which the pickup came, newest first.
std::vector<Visit> visits_of_first_winding(const History& history, const Pickup& pickup) {
    auto visits = history.visits_of(pickup.id);
    visits.erase(std::ranges::find_if(visits, &Visit::rewound), visits.end());
    std::ranges::reverse(visits);
    return visits;
}

/// True where the visit, which the history may not have yet, sees the winding with which the pickup came.
bool sees_first_winding(const History& history, const Pickup& pickup, const Visit& visit) {
    if (visit.rewound) return false;
    for (const Visit& each : history.visits_of(pickup.id)) {
        if (each.id == visit.id) break;
        if (each.rewound) return false;
    }
    return true;
}

} // namespace

std::vector<Kin> kin_of(const History& history, const Pickup& other, Kinship as, const Pickup& examined) {
    auto visits = history.visits_of(other.id);
    std::ranges::reverse(visits);
    return sound_coils(history, other, visits, as, KnownBy::person, [&](const PickupCoil& coil) {
        return std::ranges::count(examined.coils, coil.name, &PickupCoil::name) > 0;
    });
}

std::vector<Kin> kin_by_instrument(const History& history, const Pickup& examined, const Visit& visit) {
    if (examined.owner.empty() || examined.instrument.empty()) return {};
    if (!sees_first_winding(history, examined, visit)) return {};
    const auto same_coil = [&](const PickupCoil& coil) {
        return std::ranges::count(examined.coils, coil) > 0;
    };
    std::vector<Kin> all;
    for (const Pickup& other : history.pickups_of_instrument(examined.owner, examined.instrument)) {
        if (other.id == examined.id) continue;
        std::ranges::move(sound_coils(history, other, visits_of_first_winding(history, other), Kinship::set,
                                      KnownBy::instrument, same_coil),
                          std::back_inserter(all));
    }
    return all;
}

void hold_beside(Examination& examination, const std::vector<Kin>& all) {
    for (const Kin& kin : all)
        examination.alike.push_back(kin.coil);
}

std::string in_words(const Kin& kin) {
    const bool presumed = kin.known_by == KnownBy::instrument;
    const char* how = presumed                       ? "of the same owner and instrument"
                      : kin.coil.as == Kinship::twin ? "said to be its twin"
                                                     : "said to be of its set";
    return fmt::format("held beside {} (pickup {}), {}, as it was judged sound on {}{}", kin.pickup,
                       kin.number, how, text_of(kin.at).substr(0, 10),
                       presumed ? "; judge it alone if the two were not made as a set" : "");
}

} // namespace coilward
