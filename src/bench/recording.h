#pragma once

#include "bench/capture.h"
#include "bench/port.h"

#include <filesystem>
#include <memory>

namespace coilward {

/// The same link, but every byte in both directions is also appended to a capture file, event by event, so
/// that what came before a crash or a lost device is kept. `head` has everything but the events and the
/// beginning, which is now. Throws TransportError where the file cannot be written or exists already.
Link recording(Link, Capture head, const std::filesystem::path& file);

} // namespace coilward
