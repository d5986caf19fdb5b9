#pragma once

#include "meter/verdict.h"
#include "reading/reading.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// How the meter is set while the bytes arrive. A protocol whose replies carry no names or units is read by
/// it; one whose frames say everything themselves ignores it.
struct MeterSetting {
    std::vector<Quantity> quantities; ///< of the reply's value fields, in order
    std::optional<Circuit> circuit;
    std::optional<double> frequency_hz;
    std::optional<double> range_limit; ///< end of the range in use, SI unit of the first quantity
};

struct DecodedReading {
    Reading reading;
    double resolution =
        0.0; ///< one step of the last digit that was sent, SI unit; 0 where there is no number
};

/// One piece of the byte stream, judged.
struct Frame {
    Verdict verdict = Verdict::no_start;
    std::vector<DecodedReading> readings; ///< only with Verdict::reading
    std::string bytes;                    ///< as they came
    std::string note; ///< what a person should know: "signal source overloaded"; may be empty
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
