#include "history/data_folder.h"

#include "history/history.h"

namespace coilward {

std::filesystem::path default_data_folder(const char* xdg_data_home, const char* home) {
    // The specification has a relative path ignored.
    if (xdg_data_home && std::filesystem::path(xdg_data_home).is_absolute())
        return std::filesystem::path(xdg_data_home) / "coilward";
    if (home && *home) return std::filesystem::path(home) / ".local/share/coilward";
    throw HistoryError(
        "neither XDG_DATA_HOME nor HOME says where the history lives; choose a folder with --data DIR");
}

} // namespace coilward
