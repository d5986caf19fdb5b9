#include "cli/whole_file.h"

#include <cerrno>
#include <cstring>
#include <stdexcept>
#include <string>

#include <fcntl.h>
#include <fmt/format.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

namespace coilward {
namespace {

[[noreturn]] void refuse(const std::filesystem::path& file, int error) {
    if (error == EEXIST)
        throw std::runtime_error(
            fmt::format("{}: is there already; choose a name that is free, or move it away", file.string()));
    throw std::runtime_error(
        fmt::format("{}: cannot be written ({}); choose another place", file.string(), std::strerror(error)));
}

/// 0, or the error.
int write_and_sync(int descriptor, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return errno;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return ::fsync(descriptor) == 0 ? 0 : errno;
}

/// As readable as any file that the user makes.
int give_usual_rights(int descriptor) {
    const mode_t mask = ::umask(0);
    ::umask(mask);
    return ::fchmod(descriptor, 0666 & ~mask) == 0 ? 0 : errno;
}

} // namespace

void write_whole_file(const std::filesystem::path& file, std::string_view bytes) {
    std::string part = file.string() + ".XXXXXX";
    const int descriptor = ::mkstemp(part.data());
    if (descriptor < 0) refuse(file, errno);
    int error = write_and_sync(descriptor, bytes);
    if (error == 0) error = give_usual_rights(descriptor);
    ::close(descriptor);
    // A link is refused where the name is taken, which a rename is not.
    if (error == 0 && ::link(part.c_str(), file.c_str()) != 0) error = errno;
    ::unlink(part.c_str());
    if (error != 0) refuse(file, error);
}

} // namespace coilward
