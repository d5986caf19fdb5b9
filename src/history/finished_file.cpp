#include "history/finished_file.h"

#include "history/history.h"

#include <system_error>

#include <fmt/format.h>

namespace coilward {

void give_name(const std::filesystem::path& whole, const std::filesystem::path& name) {
    std::error_code error;
    std::filesystem::rename(whole, name, error);
    if (error)
        throw HistoryError(fmt::format("{}: cannot have this name ({}); all of it is in {}, move it yourself",
                                       name.string(), error.message(), whole.string()));
}

} // namespace coilward
