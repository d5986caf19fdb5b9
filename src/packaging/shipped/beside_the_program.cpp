#include "cli/shipped_files.h"

#include <system_error>

#include <sys/auxv.h>

namespace coilward {

// By the way from the program to them, so that an installation works wherever it was put. The kernel says as
// what file the program was started (getauxval(3)), also where no /proc is mounted.
std::filesystem::path shipped_files() {
    std::error_code error; // the message about a missing folder then says what to do
    // NOLINTNEXTLINE(performance-no-int-to-ptr): the kernel gives the address as a number
    const auto* const started_as = reinterpret_cast<const char*>(::getauxval(AT_EXECFN));
    const auto program = std::filesystem::canonical(started_as ? started_as : "", error);
    return (program.parent_path() / COILWARD_SHIPPED_FROM_PROGRAM).lexically_normal();
}

} // namespace coilward
