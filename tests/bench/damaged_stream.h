#pragma once

#include "meter/decoder.h"

#include <cstddef>
#include <random>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// One frame of a clean stream that gives readings.
struct CleanFrame {
    std::size_t begin; ///< in the stream
    std::size_t next;  ///< where the next one begins: what stands between belongs to this one
    std::vector<Reading> readings;
};

/// A stream with damage, and where each of its bytes came from.
struct DamagedStream {
    std::string bytes;
    std::vector<std::size_t>
        origin;               ///< of each byte, in the clean stream; an inserted one has its neighbour's
    std::vector<bool> harmed; ///< of each clean byte
};

enum class Damage {
    visible, ///< flipped, dropped or inserted bytes; no digit becomes another one
    swapped, ///< digits that become other digits: in a text without a checksum nobody can see it
};

/// What came of it.
struct DamageScore {
    std::size_t frames = 0; ///< clean ones that give readings
    std::size_t harmed = 0; ///< of them
    std::size_t wrong = 0;  ///< readings that the meter did not show
    std::size_t late = 0;   ///< clean frames lost although the two before them were whole

    DamageScore& operator+=(const DamageScore& other) {
        frames += other.frames;
        harmed += other.harmed;
        wrong += other.wrong;
        late += other.late;
        return *this;
    }
};

/// True where both can stand for a digit or a half byte: 0 to ?, or the bare numbers below 16.
inline bool are_alike(char a, char b) {
    const auto high = [](char byte) { return static_cast<unsigned char>(byte) & 0xF0U; };
    return high(a) == high(b) && (high(a) == 0x30 || high(a) == 0);
}

/// One bit of the byte flipped: for Damage::visible never a digit from a digit, else only so.
inline char flipped(char byte, Damage damage, std::mt19937& random) {
    for (int turn = 0; turn < 64; ++turn) {
        const char other = static_cast<char>(byte ^ static_cast<char>(1U << (random() % 8)));
        const bool swap = are_alike(byte, other);
        if (swap == (damage == Damage::swapped)) return other;
    }
    return byte;
}

/// One byte in `one_in` is harmed.
inline DamagedStream damaged(std::string_view clean, Damage damage, unsigned one_in, std::mt19937& random) {
    DamagedStream stream;
    stream.harmed.assign(clean.size(), false);
    const auto put = [&](char byte, std::size_t at) {
        stream.bytes += byte;
        stream.origin.push_back(at);
    };
    for (std::size_t at = 0; at < clean.size(); ++at) {
        const bool hit = random() % one_in == 0;
        const auto harm = !hit ? 3U : damage == Damage::swapped ? 0U : random() % 3;
        stream.harmed[at] = hit;
        if (harm == 0) put(flipped(clean[at], damage, random), at);
        if (harm == 1) put(static_cast<char>(random() % 256), at);
        if (harm == 1 || harm == 3) put(clean[at], at);
    }
    return stream;
}

/// The frames of a stream that begins at one, with the readings of each.
inline std::vector<CleanFrame> frames_of(const Driver& driver, const MeterSetting& setting,
                                         const std::string& stream) {
    Decoder decoder(driver, setting);
    decoder.begin_frame();
    std::vector<CleanFrame> frames;
    decoder.feed(stream, [&](const Frame& frame) {
        if (frame.verdict != Verdict::reading) return;
        const auto begin = static_cast<std::size_t>(frame.bytes.data() - stream.data());
        if (!frames.empty()) frames.back().next = begin;
        CleanFrame& clean = frames.emplace_back(CleanFrame{begin, stream.size(), {}});
        for (const DecodedReading& each : frame.readings)
            clean.readings.push_back(each.reading);
    });
    return frames;
}

} // namespace coilward
