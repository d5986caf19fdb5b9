#include "bench/port.h"

#include "bench/capture.h"
#include "bench/descriptor_transport.h"
#include "bench/replay_transport.h"
#include "bench/serial_transport.h"

#include <algorithm>
#include <stdexcept>
#include <system_error>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::string_view tcp_scheme = "tcp://";
constexpr std::string_view replay_scheme = "replay:";

[[noreturn]] void refuse_port(const std::string& text, std::string_view expected) {
    throw std::invalid_argument(fmt::format("port \"{}\": expected {}", text, expected));
}

/// "HOST:PORT" or "[HOST]:PORT", for addresses that hold colons themselves.
TcpPort tcp_port(const std::string& text) {
    std::string address = text.substr(tcp_scheme.size());
    const std::size_t colon = address.rfind(':');
    if (colon == std::string::npos || colon == 0 || colon + 1 == address.size())
        refuse_port(text, "tcp://HOST:PORT, as tcp://192.168.1.20:5025");
    TcpPort port{.host = address.substr(0, colon), .service = address.substr(colon + 1)};
    if (port.host.starts_with('[') && port.host.ends_with(']'))
        port.host = port.host.substr(1, port.host.size() - 2);
    const bool digits = std::ranges::all_of(port.service, [](char c) { return c >= '0' && c <= '9'; });
    if (!digits || port.service.size() > 5 || std::stoi(port.service) < 1 || std::stoi(port.service) > 65535)
        refuse_port(text, "a port number from 1 to 65535 behind the last colon");
    return port;
}

Link open_device(const DevicePort& port, const SerialSettings& settings) {
    // A name such as /dev/serial/by-id/... is a link to the device that libserialport knows.
    std::error_code ignored;
    const auto resolved = std::filesystem::canonical(port.path, ignored);
    const std::string path = resolved.empty() ? port.path.string() : resolved.string();
    Link link{.transport = nullptr, .clock = std::make_shared<MachineClock>(), .recorded_request = {}};
    link.transport = is_serial_port(path) ? open_serial(path, settings) : open_terminal(path);
    link.clock->wait(settings.power_up);
    return link;
}

Link open_replay(const ReplayPort& port) {
    Capture capture = read_capture(port.file);
    const auto request = capture.request;
    const auto clock = std::make_shared<ReplayClock>(capture.began);
    return {.transport = std::make_unique<ReplayTransport>(std::move(capture), clock),
            .clock = clock,
            .recorded_request = request};
}

} // namespace

Port port_from_text(const std::string& text) {
    if (text.starts_with(tcp_scheme)) return tcp_port(text);
    if (text.starts_with(replay_scheme)) {
        const std::string file = text.substr(replay_scheme.size());
        if (file.empty()) refuse_port(text, "replay:FILE, with the name of a capture");
        return ReplayPort{file};
    }
    if (text.empty() || text.find("://") != std::string::npos)
        refuse_port(text, "the path of a device, tcp://HOST:PORT or replay:FILE");
    return DevicePort{text};
}

Link open_port(const Port& port, const SerialSettings& settings) {
    if (const auto* device = std::get_if<DevicePort>(&port)) return open_device(*device, settings);
    if (const auto* replay = std::get_if<ReplayPort>(&port)) return open_replay(*replay);
    const auto& tcp = std::get<TcpPort>(port);
    return {.transport = open_tcp(tcp.host, tcp.service),
            .clock = std::make_shared<MachineClock>(),
            .recorded_request = {}};
}

} // namespace coilward
