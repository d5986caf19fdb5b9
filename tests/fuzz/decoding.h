#pragma once

#include "meter/decoder.h"
#include "meter/line_scan.h"
#include "require.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

/// What holds for every decoder and every byte sequence.
namespace coilward {

/// A frame with bytes of its own.
struct KeptFrame {
    Frame frame;
    std::string bytes;
};

struct Decoded {
    std::vector<KeptFrame> frames;
    VerdictCounts counts;
};

inline Decoded decode(const Driver& driver, const MeterSetting& setting, bool at_start,
                      const std::vector<std::string_view>& pieces) {
    Decoder decoder(driver, setting);
    if (at_start) decoder.begin_frame();
    Decoded decoded;
    for (const std::string_view piece : pieces)
        decoder.feed(piece, [&](Frame& frame) {
            decoded.frames.push_back({.frame = frame, .bytes = std::string(frame.bytes)});
        });
    decoded.counts = decoder.counts();
    return decoded;
}

/// The quantities that a driver declares: by its setups and by the names and units of its lines.
inline bool declares(const Driver& driver, Quantity quantity) {
    const auto has = [&](const auto& named) {
        return std::ranges::any_of(named, [&](const auto& each) { return each.second.quantity == quantity; });
    };
    if (driver.line && (has(driver.line->units) || has(driver.line->keys))) return true;
    return std::ranges::any_of(driver.setups, [&](const MeterSetup& setup) {
        return std::ranges::find(setup.gives, quantity) != setup.gives.end();
    });
}

/// A number, or a state that is none; of a quantity that the driver declares, at the frequency that was set.
inline void require_sound(const DecodedReading& decoded, const Driver& driver, const MeterSetting& setting) {
    const Reading& reading = decoded.reading;
    const std::string shown = describe(reading);
    require(declares(driver, reading.quantity), "a reading is of a quantity that the driver declares", shown);
    require((reading.state == State::ok) == reading.value.has_value(), "a number or a state, not both",
            shown);
    require(reading.state != State::unstable && !reading.spread && !reading.polarity,
            "a decoder does not judge several readings", shown);
    require(!reading.standard_uncertainty && reading.between == Between::leads && reading.coil.empty(),
            "a decoder adds nothing that was not sent", shown);
    require(needs_frequency(reading.quantity) ? reading.frequency_hz.has_value() || !setting.frequency_hz
                                              : !reading.frequency_hz.has_value(),
            "a frequency where the quantity has one", shown);
    if (reading.frequency_hz)
        require(std::isfinite(*reading.frequency_hz) && *reading.frequency_hz > 0.0,
                "a frequency is positive", shown);
    if (reading.value) {
        require(std::isfinite(*reading.value), "a number is finite", shown);
        require(std::isfinite(decoded.resolution) && decoded.resolution > 0.0, "a number has a last digit",
                shown);
    }
    if (reading.limit) require(std::isfinite(*reading.limit), "a limit is finite", shown);
}

/// Every byte is in exactly one piece, in order; the rest is shorter than the decoder may hold. The
/// characters that end lines are counted, each as one, but are no frames.
inline void require_all_bytes(std::string_view all_bytes, const Decoded& decoded, const Driver& driver) {
    std::string bytes(all_bytes);
    const std::size_t line_ends = driver.line ? std::erase_if(bytes, ends_line) : 0;
    std::string pieces;
    for (const KeptFrame& kept : decoded.frames)
        pieces += kept.bytes;
    require(bytes.starts_with(pieces), "the pieces are the bytes that came, in order");
    require(bytes.size() - pieces.size() <= 4 * driver.longest_frame, "at most four frames wait");
    std::size_t counted = 0;
    std::size_t counted_pieces = 0;
    for (std::size_t verdict = 0; verdict < verdict_kinds; ++verdict) {
        counted += decoded.counts.bytes(static_cast<Verdict>(verdict));
        counted_pieces += decoded.counts.pieces(static_cast<Verdict>(verdict));
    }
    const std::size_t ends = counted - pieces.size();
    require(counted >= pieces.size() && ends <= line_ends, "the counted bytes add up");
    require(counted_pieces == decoded.frames.size() + ends, "the counted pieces add up");
}

inline std::vector<DecodedReading> readings_of(const Decoded& decoded) {
    std::vector<DecodedReading> readings;
    for (const KeptFrame& kept : decoded.frames)
        readings.insert(readings.end(), kept.frame.readings.begin(), kept.frame.readings.end());
    return readings;
}

/// Feeds the bytes whole and in two pieces.
inline void require_sound_decoding(const Driver& driver, const MeterSetting& setting, bool at_start,
                                   std::string_view bytes, std::size_t cut) {
    const Decoded whole = decode(driver, setting, at_start, {bytes});
    require_all_bytes(bytes, whole, driver);
    for (const auto& [frame, frame_bytes] : whole.frames) {
        require((frame.verdict == Verdict::reading) == !frame.readings.empty(),
                "exactly a frame that is a reading carries readings", frame_bytes);
        for (const DecodedReading& reading : frame.readings)
            require_sound(reading, driver, setting);
    }
    const Decoded halves =
        decode(driver, setting, at_start, {bytes.substr(0, cut), bytes.substr(std::min(cut, bytes.size()))});
    require_all_bytes(bytes, halves, driver);
    const auto same = [](const DecodedReading& a, const DecodedReading& b) {
        return a.reading == b.reading && a.resolution == b.resolution;
    };
    require(std::ranges::equal(readings_of(whole), readings_of(halves), same),
            "bytes in two pieces give the same readings");
    for (std::size_t verdict = 0; verdict < verdict_kinds; ++verdict)
        require(whole.counts.bytes(static_cast<Verdict>(verdict)) ==
                    halves.counts.bytes(static_cast<Verdict>(verdict)),
                "bytes in two pieces get the same verdicts", name(static_cast<Verdict>(verdict)));
}

} // namespace coilward
