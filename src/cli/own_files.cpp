#include "cli/own_files.h"

namespace coilward {

namespace fs = std::filesystem;

fs::path own_files(const char* xdg_config_home, const char* home) {
    // The specification has a relative path ignored.
    if (xdg_config_home && fs::path(xdg_config_home).is_absolute())
        return fs::path(xdg_config_home) / "coilward";
    return home && *home ? fs::path(home) / ".config/coilward" : fs::path();
}

} // namespace coilward
