#include "cli/shipped_files.h"

namespace coilward {

std::filesystem::path shipped_files() {
    return COILWARD_SOURCE_FOLDER;
}

} // namespace coilward
