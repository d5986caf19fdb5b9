#pragma once

#include "bench/clock.h"
#include "meter/measurement.h"

#include <chrono>
#include <filesystem>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// One thing that happened on the wire.
struct CaptureEvent {
    /// The host to the meter, the meter to the host, or the end.
    enum class Kind { sent, received, unplugged };
    std::chrono::milliseconds at{0}; ///< since the capture began
    Kind kind = Kind::received;
    std::string bytes; ///< as they were; none with `unplugged`
};

/// A recorded, or constructed, conversation with a meter: both directions with their times
/// (docs/captures.md).
struct Capture {
    std::string driver;                        ///< id; "nobody" where no driver may read it
    std::string title;                         ///< for people
    Moment began{};                            ///< the time at which `at` is 0
    std::optional<MeasurementRequest> request; ///< how the meter was set, where that was asked for
    bool starts_mid_frame = false;             ///< the first byte may lie within a frame
    std::string provenance; ///< who recorded it from what, or from which document it was made
    std::map<std::string, std::string> also; ///< further header lines: display, by, firmware, serial
    std::vector<CaptureEvent> events;        ///< in the order of their times
};

/// A capture file that cannot be read: "file:line: what; what was expected".
struct BadCapture : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Parses the text of a capture; `file` is for messages. Throws BadCapture.
Capture capture_from_text(std::string_view text, const std::string& file);

/// Reads a capture file. Throws BadCapture, also when there is no such file.
Capture read_capture(const std::filesystem::path& file);

/// The text of a capture file (docs/captures.md), which capture_from_text reads again.
std::string to_text(const Capture&);

/// One event as a line of a capture, without the newline.
std::string to_text(const CaptureEvent&);

} // namespace coilward
