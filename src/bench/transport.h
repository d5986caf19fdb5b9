#pragma once

#include <chrono>
#include <stdexcept>
#include <string>
#include <string_view>

namespace coilward {

/// How a read or a write ended. A quiet line, a lost device and the end of a capture stay apart all the way
/// up; what is wrong beyond them is a TransportError.
enum class LinkOutcome {
    done,      ///< bytes came, or all bytes went
    timeout,   ///< the line is there, but quiet
    unplugged, ///< the device is gone, or the peer closed
    ended,     ///< a capture has no more to give
};

/// What a read ended with.
struct Received {
    LinkOutcome outcome = LinkOutcome::timeout; ///< `done`: there are bytes
    std::string bytes;                          ///< never empty with `done`, always empty otherwise
};

/// A port that cannot be opened or used: what, where, and what to do, on one line.
struct TransportError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Bytes to and from a meter. Open from its construction to its destruction; after `unplugged` or `ended`
/// every call answers the same.
class Transport {
public:
    virtual ~Transport() = default;

    /// Waits until bytes arrive, at most that long. Throws TransportError.
    virtual Received read(std::chrono::milliseconds at_most) = 0;

    /// Sends all of it, or says how the link ended. Throws TransportError.
    virtual LinkOutcome write(std::string_view bytes) = 0;

    /// True where the first byte that is read is the first that the meter sent, so that it begins a frame.
    virtual bool starts_at_a_frame() const = 0;
};

} // namespace coilward
