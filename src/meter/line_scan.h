#pragma once

#include "meter/frame.h"
#include "meter/line_fields.h"
#include "meter/line_protocol.h"

#include <string_view>

namespace coilward {

/// The piece at the front of a buffer of text lines: fills the empty frame and gives its length, as a
/// ScanFunction does. A line that does not begin `at_boundary` is `no_start`: its beginning may be missing.
/// Terminators are pieces of their own.
std::size_t scan_line(std::string_view buffer, const LineProtocol&, const MeterSetting&, bool at_boundary,
                      LineRoom&, Frame&);

/// Fills the empty frame with what one whole line means, without its terminator.
void judge_line(std::string_view line, const LineProtocol&, const MeterSetting&, LineRoom&, Frame&);

/// True for the two characters that end lines.
inline bool ends_line(char character) {
    return character == '\r' || character == '\n';
}

} // namespace coilward
