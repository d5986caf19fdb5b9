#include "meter/driver_folder.h"

#include "meter/driver_file.h"
#include "toml/toml_files.h"

#include <algorithm>
#include <system_error>

#include <fmt/format.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;

std::string first_and_count(const std::vector<Complaint>& complaints) {
    if (complaints.empty()) return "the drivers cannot be used";
    std::string text = complaints.front().text();
    if (complaints.size() > 1) text += fmt::format("\nand {} more", complaints.size() - 1);
    return text;
}

std::vector<fs::path> shipped_files(const fs::path& folder, std::vector<Complaint>& complaints) {
    std::error_code error;
    auto files = toml_files(folder, error);
    if (error)
        complaints.push_back(
            complaint_about(folder, ComplaintKind::missing_folder,
                            fmt::format("this folder of drivers cannot be read: {}; name it with --drivers",
                                        error.message())));
    return files;
}

} // namespace

BadDrivers::BadDrivers(std::vector<Complaint> all)
    : std::runtime_error(first_and_count(all)), complaints(std::move(all)) {}

LoadedDrivers read_drivers(const fs::path& folder, const fs::path& own_folder) {
    LoadedDrivers loaded;
    const auto files =
        with_own_files(shipped_files(folder, loaded.complaints), own_folder, loaded.complaints);
    if (files.empty() && loaded.complaints.empty())
        loaded.complaints.push_back(complaint_about(folder, ComplaintKind::empty_folder,
                                                    "there is no driver (*.toml) in this folder"));
    for (const fs::path& file : files)
        if (auto driver = read_driver(file, loaded.complaints)) loaded.drivers.push_back(std::move(*driver));
    return loaded;
}

std::vector<Driver> load_drivers(const fs::path& folder, const fs::path& own_folder) {
    LoadedDrivers loaded = read_drivers(folder, own_folder);
    if (!loaded.complaints.empty()) throw BadDrivers(std::move(loaded.complaints));
    return std::move(loaded.drivers);
}

const Driver* driver_named(const std::vector<Driver>& drivers, std::string_view id) {
    const auto found = std::ranges::find(drivers, id, &Driver::id);
    return found == drivers.end() ? nullptr : &*found;
}

} // namespace coilward
