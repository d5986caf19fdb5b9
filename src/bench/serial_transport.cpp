#include "bench/serial_transport.h"

#include <array>
#include <chrono>
#include <cstdlib>
#include <utility>

#include <fmt/format.h>
#include <libserialport.h>
#include <termios.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

constexpr unsigned longest_write_ms = 5000;

using PortHandle = std::unique_ptr<sp_port, decltype(&sp_free_port)>;
using ConfigHandle = std::unique_ptr<sp_port_config, decltype(&sp_free_config)>;
using EventsHandle = std::unique_ptr<sp_event_set, decltype(&sp_free_event_set)>;

std::string why(sp_return result) {
    if (result != SP_ERR_FAIL) return result == SP_ERR_MEM ? "out of memory" : "not supported by this port";
    char* text = sp_last_error_message();
    std::string message = text ? text : "unknown error";
    sp_free_error_message(text);
    return message;
}

void check(sp_return result, const std::string& path, std::string_view what) {
    if (result != SP_OK)
        throw TransportError(
            fmt::format("{}: {} failed: {}; check that the meter is plugged in, that no other program "
                        "uses the port and that you are in the group that owns it",
                        path, what, why(result)));
}

sp_parity parity_of(Parity parity) {
    switch (parity) {
    case Parity::none:
        return SP_PARITY_NONE;
    case Parity::odd:
        return SP_PARITY_ODD;
    case Parity::even:
        return SP_PARITY_EVEN;
    }
    return SP_PARITY_NONE;
}

/// All settings in one step, so that no half-set state shows on the wire.
void configure(sp_port* port, const std::string& path, const SerialSettings& settings) {
    sp_port_config* made = nullptr;
    check(sp_new_config(&made), path, "making its settings");
    const ConfigHandle config(made, &sp_free_config);
    sp_set_config_baudrate(config.get(), settings.baud);
    sp_set_config_bits(config.get(), settings.data_bits);
    sp_set_config_parity(config.get(), parity_of(settings.parity));
    sp_set_config_stopbits(config.get(), settings.stop_bits);
    sp_set_config_flowcontrol(config.get(), SP_FLOWCONTROL_NONE);
    // After the flow control, which would overwrite them: some adapters live on these lines.
    sp_set_config_dtr(config.get(), settings.dtr ? SP_DTR_ON : SP_DTR_OFF);
    sp_set_config_rts(config.get(), settings.rts ? SP_RTS_ON : SP_RTS_OFF);
    check(sp_set_config(port, config.get()), path, fmt::format("setting it to {} baud", settings.baud));
}

/// Has a character of wrong parity read as a zero byte, which no protocol with parity has. libserialport
/// leaves it as it came, and a damaged digit would pass. Best effort: some adapters do not check.
void mark_wrong_parity(sp_port* port) {
    int descriptor = -1;
    termios line{};
    if (sp_get_port_handle(port, &descriptor) != SP_OK || ::tcgetattr(descriptor, &line) != 0) return;
    line.c_iflag |= INPCK;
    line.c_iflag &= ~static_cast<tcflag_t>(IGNPAR | PARMRK);
    ::tcsetattr(descriptor, TCSANOW, &line);
}

PortHandle open_handle(const std::string& path) {
    sp_port* found = nullptr;
    check(sp_get_port_by_name(path.c_str(), &found), path, "finding it");
    PortHandle port(found, &sp_free_port);
    check(sp_open(port.get(), SP_MODE_READ_WRITE), path, "opening it");
    return port;
}

class SerialTransport : public Transport {
public:
    SerialTransport(const std::string& path, const SerialSettings& settings)
        : path_(path), port_(open_handle(path)), events_(nullptr, &sp_free_event_set) {
        configure(port_.get(), path, settings);
        if (settings.parity != Parity::none) mark_wrong_parity(port_.get());
        sp_event_set* made = nullptr;
        check(sp_new_event_set(&made), path, "preparing to wait for it");
        events_.reset(made);
        check(sp_add_port_events(made, port_.get(), SP_EVENT_RX_READY), path, "preparing to wait for it");
    }

    ~SerialTransport() override { close(); }

    SerialTransport(const SerialTransport&) = delete;
    SerialTransport& operator=(const SerialTransport&) = delete;

    Received read(milliseconds at_most) override;
    LinkOutcome write(std::string_view bytes) override;

    bool starts_at_a_frame() const override { return false; }

private:
    void close() {
        if (port_) sp_close(port_.get());
        port_.reset();
    }

    /// A lost port is closed at once: held open, the adapter would come back under another name.
    LinkOutcome lost() {
        close();
        return LinkOutcome::unplugged;
    }

    std::string path_;
    PortHandle port_;
    EventsHandle events_;
};

Received SerialTransport::read(milliseconds at_most) {
    const auto deadline = steady_clock::now() + at_most;
    for (;;) {
        if (!port_) return {.outcome = LinkOutcome::unplugged, .bytes = {}};
        std::array<char, 512> buffer;
        const int count = sp_nonblocking_read(port_.get(), buffer.data(), buffer.size());
        if (count < 0) return {.outcome = lost(), .bytes = {}};
        if (count > 0)
            return {.outcome = LinkOutcome::done,
                    .bytes = std::string(buffer.data(), static_cast<std::size_t>(count))};
        if (outcome_of_quiet_port(sp_input_waiting(port_.get())) == LinkOutcome::unplugged)
            return {.outcome = lost(), .bytes = {}};
        const auto left = std::chrono::ceil<milliseconds>(deadline - steady_clock::now());
        if (left <= milliseconds(0)) return {.outcome = LinkOutcome::timeout, .bytes = {}};
        // sp_wait takes 0 for "for ever"; `left` is at least 1.
        check(sp_wait(events_.get(), static_cast<unsigned>(left.count())), path_, "waiting for it");
    }
}

LinkOutcome SerialTransport::write(std::string_view bytes) {
    if (!port_) return LinkOutcome::unplugged;
    const int count = sp_blocking_write(port_.get(), bytes.data(), bytes.size(), longest_write_ms);
    return count == static_cast<int>(bytes.size()) ? LinkOutcome::done : lost();
}

} // namespace

LinkOutcome outcome_of_quiet_port(int waiting) {
    return waiting < 0 ? LinkOutcome::unplugged : LinkOutcome::timeout;
}

bool is_serial_port(const std::string& path) {
    sp_port* port = nullptr;
    if (sp_get_port_by_name(path.c_str(), &port) != SP_OK) return false;
    sp_free_port(port);
    return true;
}

std::unique_ptr<Transport> open_serial(const std::string& path, const SerialSettings& settings) {
    return std::make_unique<SerialTransport>(path, settings);
}

} // namespace coilward
