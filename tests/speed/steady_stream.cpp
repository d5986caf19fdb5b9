#include "steady_stream.h"

#include "bench/capture.h"
#include "meter/decoder.h"
#include "meter/measurement.h"

#include <algorithm>
#include <stdexcept>

namespace coilward {

std::string steady_stream(const Driver& driver) {
    constexpr std::size_t stream_bytes = 1U << 20U;
    const Capture capture = read_capture(COILWARD_SOURCE_DIR "/captures/" + driver.id + "/steady.capture");
    std::string once;
    for (const CaptureEvent& event : capture.events)
        if (event.kind == CaptureEvent::Kind::received) once += event.bytes;
    if (once.empty()) throw std::runtime_error("nothing was sent in the steady capture of " + driver.id);
    std::string stream;
    while (stream.size() < stream_bytes)
        stream += once;
    return stream;
}

std::size_t readings_in(const Driver& driver, std::string_view stream) {
    constexpr std::size_t piece_bytes = 4096;
    const MeterSetup& setup = driver.setups.front();
    Decoder decoder(driver, setting_for(setup, frequency_for(setup, {.quantity = setup.gives.front()})));
    decoder.begin_frame();
    std::size_t readings = 0; // looked at, so that no frame can be left unmade
    for (std::string_view rest = stream; !rest.empty();
         rest.remove_prefix(std::min(piece_bytes, rest.size())))
        decoder.feed(rest.substr(0, piece_bytes),
                     [&](const Frame& frame) { readings += frame.verdict == Verdict::reading ? 1 : 0; });
    return readings;
}

} // namespace coilward
