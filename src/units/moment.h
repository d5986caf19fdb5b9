#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace coilward {

/// A moment in UTC, to the millisecond.
using Moment = std::chrono::sys_time<std::chrono::milliseconds>;

/// "2026-03-02T10:00:00.250Z" (RFC 3339, UTC, always with milliseconds).
std::string text_of(Moment);

/// Reads an RFC 3339 time in any offset, with or without a fraction; digits beyond the millisecond are
/// dropped. Nothing where the text is no such time.
std::optional<Moment> moment_from_text(std::string_view text);

} // namespace coilward
