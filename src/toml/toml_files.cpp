#include "toml/toml_files.h"

#include "toml/toml_source.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {

namespace fs = std::filesystem;

std::vector<fs::path> toml_files(const fs::path& folder, std::error_code& error) {
    std::vector<fs::path> files;
    for (fs::directory_iterator each(folder, error), end; !error && each != end; each.increment(error))
        if (each->path().extension() == ".toml") files.push_back(each->path());
    std::ranges::sort(files);
    return files;
}

std::vector<fs::path> with_own_files(std::vector<fs::path> shipped, const fs::path& own_folder,
                                     std::vector<Complaint>& complaints) {
    if (own_folder.empty()) return shipped;
    std::error_code error;
    const auto own = toml_files(own_folder, error);
    if (error && error != std::errc::no_such_file_or_directory)
        complaints.push_back(complaint_about(
            own_folder, ComplaintKind::unreadable,
            fmt::format("your own folder cannot be read: {}; mend it or move it away", error.message())));
    std::vector<fs::path> files = own;
    std::ranges::copy_if(shipped, std::back_inserter(files), [&](const fs::path& file) {
        return std::ranges::find(own, file.filename(), &fs::path::filename) == own.end();
    });
    std::ranges::sort(files, {}, &fs::path::filename);
    return files;
}

} // namespace coilward
