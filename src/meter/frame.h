#pragma once

#include "meter/decoded_reading.h"
#include "meter/frame_writing.h"
#include "meter/verdict.h"

#include <span>
#include <string>
#include <string_view>

namespace coilward {

/// One piece of the byte stream, judged.
struct Frame {
    Verdict verdict = Verdict::no_start; ///< no_start also while it is empty
    DecodedReadings readings;            ///< only with Verdict::reading
    std::string_view bytes; ///< as they came; they live no longer than the call that hands the frame on
    /// How many digits a number has that is written otherwise than the meter's document prints; 0: none is.
    int unusual_digits = 0;
    std::string note; ///< what a person should know: "signal source overloaded"; may be empty
};

/// Makes the frame an empty one again.
void clear(Frame&);

/// A frame protocol as two pure functions, which drivers/ID.cpp defines: `scan_` followed by its id with
/// underscores reads what stands at the front of the buffer into an empty frame, but for its bytes. It gives
/// how many of the first bytes are that frame; 0: more bytes are needed to tell. `show_` gives the bytes of
/// the frame that a meter with this on its display sends, for a simulated one.
using ScanFunction = std::size_t (*)(std::string_view buffer, const MeterSetting&, Frame&);

/// The other direction, as above.
using ShowFunction = std::string (*)(ShownValues, const MeterSetting&);

/// A frame protocol that is compiled: its driver's id and functions.
struct CompiledScan {
    std::string_view driver; ///< id
    ScanFunction scan;
    ShowFunction show;
};

/// The functions of drivers/*.cpp. The table is written by drivers/CMakeLists.txt into the build folder.
std::span<const CompiledScan> compiled_scans();

} // namespace coilward
