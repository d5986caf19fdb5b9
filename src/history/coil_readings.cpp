#include "history/coil_readings.h"

#include <map>

namespace coilward {

std::vector<Reading> readings_that_hold(const History& history, const Visit& visit) {
    std::vector<Reading> readings;
    for (StoredReading& stored : current_readings(history.readings_of(visit.id)))
        readings.push_back(std::move(stored.reading));
    return readings;
}

bool is_bench_temperature(const Reading& reading) {
    return reading.quantity == Quantity::temperature && reading.coil.empty();
}

bool is_of_coil(const Reading& reading, const std::string& coil) {
    return reading.coil == coil || is_bench_temperature(reading);
}

std::vector<Reading> of_coil(std::vector<Reading> readings, const std::string& coil) {
    std::erase_if(readings, [&](const Reading& reading) { return !is_of_coil(reading, coil); });
    for (Reading& reading : readings)
        reading.coil.clear();
    return readings;
}

std::set<std::string> coils_judged_sound(const History& history, const Visit& visit) {
    std::map<std::string, bool> sound;
    for (const StoredVerdict& verdict : history.verdicts_of(visit.id)) // oldest first
        sound[verdict.coil] = verdict.healthy && verdict.decided;
    std::set<std::string> coils;
    for (const auto& [coil, is_sound] : sound)
        if (is_sound) coils.insert(coil);
    return coils;
}

} // namespace coilward
