#pragma once

#include "meter/driver.h"
#include "toml/complaint.h"

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// Driver files that cannot be used. what() is the first complaint's text and how many more there are.
struct BadDrivers : std::runtime_error {
    /// Of at least one.
    explicit BadDrivers(std::vector<Complaint>);
    std::vector<Complaint> complaints; ///< all of them
};

/// What a folder of drivers holds.
struct LoadedDrivers {
    std::vector<Driver> drivers;       ///< what could be used, by id
    std::vector<Complaint> complaints; ///< empty where all could be used
};

/// Reads every *.toml of the folder and returns all complaints together. A missing folder is a complaint. A
/// person's own folder, where one is given, is laid over it file by file; it need not be there.
LoadedDrivers read_drivers(const std::filesystem::path& folder, const std::filesystem::path& own_folder = {});

/// The same, but throws BadDrivers when there is any complaint.
std::vector<Driver> load_drivers(const std::filesystem::path& folder,
                                 const std::filesystem::path& own_folder = {});

/// The driver of that id, or nullptr.
const Driver* driver_named(const std::vector<Driver>&, std::string_view id);

} // namespace coilward
