#pragma once

#include "meter/decoded_reading.h"
#include "meter/verdict.h"

#include <span>
#include <string>
#include <string_view>

namespace coilward {

/// One piece of the byte stream, judged.
struct Frame {
    Verdict verdict = Verdict::no_start;
    DecodedReadings readings; ///< only with Verdict::reading
    std::string_view bytes;   ///< as they came; they live no longer than the call that hands the frame on
    std::string note;         ///< what a person should know: "signal source overloaded"; may be empty
};

/// What stands at the front of a buffer. `used` = 0: more bytes are needed to tell. Otherwise the first
/// `used` bytes are one piece with this verdict; `Frame::bytes` is filled in by the decoder.
struct Scan {
    std::size_t used = 0;
    Frame frame;
};

/// A frame protocol as a pure function of the bytes: the one thing that drivers/ID.cpp defines, under the
/// name `scan_` followed by its id with underscores.
using ScanFunction = Scan (*)(std::string_view buffer, const MeterSetting&);

struct CompiledScan {
    std::string_view driver; ///< id
    ScanFunction scan;
};

/// The scan functions of drivers/*.cpp. The table is written by drivers/CMakeLists.txt into the build folder.
std::span<const CompiledScan> compiled_scans();

} // namespace coilward
