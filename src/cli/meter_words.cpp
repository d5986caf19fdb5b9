#include "cli/meter_words.h"

#include "cli/input.h"
#include "meter/driver_folder.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {

std::vector<Driver> drivers_of(const Session& session) {
    try {
        return load_drivers(session.drivers_folder, session.own_drivers_folder);
    } catch (const BadDrivers& error) {
        throw BadInput(in_one_line(error.complaints, "coilward check-driver FILE"));
    }
}

Driver driver_in_words(const Session& session, const std::string& id) {
    LoadedDrivers loaded = read_drivers(session.drivers_folder, session.own_drivers_folder);
    if (const Driver* driver = driver_named(loaded.drivers, id)) return *driver;
    if (!loaded.complaints.empty()) throw BadInput(loaded.complaints.front().headline());
    std::vector<std::string> ids;
    for (const Driver& driver : loaded.drivers)
        ids.push_back(driver.id);
    std::string where = session.drivers_folder.string();
    if (!session.own_drivers_folder.empty()) where += " or " + session.own_drivers_folder.string();
    throw CLI::ValidationError("--meter", fmt::format("there is no driver \"{}\" in {}; there are {}", id,
                                                      where, fmt::join(ids, ", ")));
}

Port port_in_words(const std::string& words) {
    try {
        return port_from_text(words);
    } catch (const std::invalid_argument& error) {
        throw CLI::ValidationError("--port", error.what());
    }
}

std::vector<BenchMeter> bench_meters_in_words(const Session& session, const std::vector<std::string>& meters,
                                              const std::vector<std::string>& ports,
                                              std::deque<Driver>& drivers) {
    if (meters.size() != ports.size())
        throw CLI::ValidationError("--port", fmt::format("{} meters and {} ports; give one --port for each "
                                                         "--meter, in the same order",
                                                         meters.size(), ports.size()));
    std::vector<BenchMeter> found;
    for (std::size_t i = 0; i < meters.size(); ++i) {
        drivers.push_back(driver_in_words(session, meters[i]));
        try {
            found.push_back(bench_meter(drivers.back(), port_in_words(ports[i]), ports[i]));
        } catch (const BadCapture& error) {
            throw BadInput(error.what());
        }
    }
    return found;
}

} // namespace coilward
