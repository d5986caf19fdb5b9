#pragma once

#include "bench/transport.h"

#include <memory>
#include <string>

namespace coilward {

/// An open file descriptor that closes itself.
class Descriptor {
public:
    /// Takes it over; -1 is none.
    explicit Descriptor(int number = -1) : number_(number) {}

    /// Takes over the other's, which then has none.
    Descriptor(Descriptor&& other) noexcept : number_(other.release()) {}

    /// Closes its own first.
    Descriptor& operator=(Descriptor&& other) noexcept;
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;

    ~Descriptor() { close(); }

    /// The number; -1 where there is none.
    int get() const { return number_; }

    /// Whether there is one.
    bool is_open() const { return number_ >= 0; }

    /// Gives it away, unclosed; has none from then on.
    int release();

    /// Closes it, where there is one.
    void close();

private:
    int number_;
};

/// Bytes over a non-blocking descriptor: a terminal device or a stream socket.
class DescriptorTransport : public Transport {
public:
    /// Takes over an open one. `starts_at_a_frame`: as Transport has it.
    DescriptorTransport(Descriptor, bool starts_at_a_frame);

    Received read(std::chrono::milliseconds at_most) override;
    LinkOutcome write(std::string_view bytes) override;

    bool starts_at_a_frame() const override { return starts_at_a_frame_; }

private:
    LinkOutcome lost();

    Descriptor descriptor_;
    bool starts_at_a_frame_;
};

/// Opens a terminal device that is no serial port, as a pseudo-terminal. Throws TransportError.
std::unique_ptr<Transport> open_terminal(const std::string& path);

/// Connects to a network address within five seconds. Throws TransportError.
std::unique_ptr<Transport> open_tcp(const std::string& host, const std::string& service);

} // namespace coilward
