#include "serve/unfinished.h"

#include "reading/json_line.h"

#include <algorithm>
#include <set>

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t looked_at = 8; ///< own choice: a bench's day

std::set<std::string> coils_read(const std::vector<StoredReading>& readings) {
    std::set<std::string> coils;
    for (const StoredReading& stored : readings)
        if (stored.reading.quantity != Quantity::temperature) coils.insert(stored.reading.coil);
    return coils;
}

/// Not so of "whole", which is read, but not examined.
bool is_coil_of(const Pickup& pickup, const std::string& coil) {
    return pickup.coils.empty()
               ? coil.empty()
               : std::ranges::find(pickup.coils, coil, &PickupCoil::name) != pickup.coils.end();
}

bool is_decided(const std::vector<StoredVerdict>& verdicts, const std::string& coil) {
    const auto last = std::find_if(verdicts.rbegin(), verdicts.rend(),
                                   [&](const StoredVerdict& verdict) { return verdict.coil == coil; });
    return last != verdicts.rend() && last->decided;
}

} // namespace

std::string unfinished_to_json(const History& history) {
    Json list = Json::array();
    for (const Visit& visit : history.latest_visits(looked_at)) {
        if (history.visits_of(visit.pickup).back().id != visit.id) continue;
        const auto readings = current_readings(history.readings_of(visit.id));
        const auto verdicts = history.verdicts_of(visit.id);
        const auto pickup = history.pickup(visit.pickup);
        for (const std::string& coil : coils_read(readings))
            if (pickup && is_coil_of(*pickup, coil) && !is_decided(verdicts, coil))
                list.push_back({{"number", pickup->number},
                                {"name", pickup->name},
                                {"coil", coil},
                                {"visit", text_of(visit.id)},
                                {"at", text_of(visit.at)},
                                {"readings", readings.size()}});
    }
    return on_one_line(Json{{"unfinished", std::move(list)}});
}

} // namespace coilward
