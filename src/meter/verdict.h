#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace coilward {

/// What a decoder makes of a piece of the byte stream. Only `reading` carries readings; everything else is
/// counted, so that "why was nothing read?" has an answer.
enum class Verdict {
    reading,       ///< a whole frame; an over-range display is a reading too, with its State
    aside,         ///< part of the protocol without a measurement: an acknowledgement, a prompt, an echo
    too_short,     ///< a frame that was cut off
    no_start,      ///< bytes before the first place where a frame can begin
    bad_structure, ///< framed, but the fields are not those of this protocol
    bad_check,     ///< the checksum, parity or the repetition that the protocol promises does not agree
    senseless,     ///< well formed, but the meter reports a fault or a number that nothing measures
    not_live,      ///< a held, minimum, maximum, relative or remembered value, or no measurement yet
};

/// How many verdicts there are.
inline constexpr std::size_t verdict_kinds = 8;

/// "reading", "too_short", ...: as printed by `coilward watch`.
std::string_view name(Verdict);

/// How many pieces had each verdict, and how many bytes were in them.
class VerdictCounts {
public:
    /// So many pieces more, with so many bytes in all.
    void add(Verdict verdict, std::size_t bytes, std::size_t pieces = 1) {
        pieces_[static_cast<std::size_t>(verdict)] += pieces;
        bytes_[static_cast<std::size_t>(verdict)] += bytes;
    }

    /// Adds what the other counted.
    VerdictCounts& operator+=(const VerdictCounts&);

    /// How many had it.
    std::size_t pieces(Verdict) const;

    /// How many bytes were in them.
    std::size_t bytes(Verdict) const;

    /// Bytes that ended in no reading and were no ordinary part of the protocol.
    std::size_t bytes_that_are_no_reading() const;

private:
    std::array<std::size_t, verdict_kinds> pieces_{};
    std::array<std::size_t, verdict_kinds> bytes_{};
};

} // namespace coilward
