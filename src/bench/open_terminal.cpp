#include "bench/descriptor_transport.h"

#include <cerrno>
#include <system_error>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

namespace coilward {
namespace {

[[noreturn]] void refuse(const std::string& path, const std::string& why) {
    throw TransportError(fmt::format("{}: {}", path, why));
}

std::string remedy(int error) {
    std::string what = std::generic_category().message(error);
    switch (error) {
    case ENOENT:
        return what + "; check that the meter is plugged in and the name of its port";
    case EACCES:
        return what + "; add yourself to the group that owns the port, usually dialout, and log in again";
    case EBUSY:
        return what + "; close the other program that uses the port";
    default:
        return what;
    }
}

} // namespace

std::unique_ptr<Transport> open_terminal(const std::string& path) {
    Descriptor device(::open(path.c_str(), O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC));
    if (!device.is_open()) refuse(path, remedy(errno));
    termios settings{};
    if (::tcgetattr(device.get(), &settings) != 0)
        refuse(path, "this is no terminal device; give a serial port, tcp://HOST:PORT or replay:FILE");
    ::cfmakeraw(&settings);
    settings.c_cflag |= CLOCAL | CREAD; // no modem line may decide whether the meter is heard
    if (::tcsetattr(device.get(), TCSANOW, &settings) != 0) refuse(path, remedy(errno));
    return std::make_unique<DescriptorTransport>(std::move(device), false);
}

} // namespace coilward
