#pragma once

#include "meter/decoder.h"
#include "meter/line_scan.h"
#include "require.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What holds for every decoder and every byte sequence. Ten million inputs are asked for, so that nothing is
/// copied or put into words that is only needed where it does not hold.
namespace coilward {

/// One driver, with its meter set in one way.
struct Decoding {
    const Driver* driver;
    MeterSetting setting;
    bool at_start; ///< the stream begins at a frame
};

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
inline void require_sound(const DecodedReading& decoded, const Decoding& decoding) {
    const Reading& reading = decoded.reading;
    const auto shown = [&] { return describe(reading); };
    require(declares(*decoding.driver, reading.quantity),
            "a reading is of a quantity that the driver declares", shown);
    require((reading.state == State::ok) == reading.value.has_value(), "a number or a state, not both",
            shown);
    require(reading.state != State::unstable && !reading.spread && !reading.polarity,
            "a decoder does not judge several readings", shown);
    require(!reading.standard_uncertainty && reading.between == Between::leads && reading.coil.empty(),
            "a decoder adds nothing that was not sent", shown);
    require(needs_frequency(reading.quantity)
                ? reading.frequency_hz.has_value() || !decoding.setting.frequency_hz
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

/// Walks over the bytes that went in, as the frames come out: every byte is in exactly one piece, in order.
/// The characters that end lines are counted, each as one, but are no frames.
class BytesInOrder {
public:
    BytesInOrder(std::string_view bytes, const Driver& driver)
        : all_(bytes), rest_(bytes), has_lines_(driver.line.has_value()) {}

    void take(std::string_view piece) {
        pass_line_ends();
        require(rest_.starts_with(piece), "the pieces are the bytes that came, in order", piece);
        rest_.remove_prefix(piece.size());
        bytes_ += piece.size();
        ++pieces_;
    }

    void require_counted(const VerdictCounts& counts, std::size_t longest_frame) {
        pass_line_ends();
        const std::size_t line_ends = has_lines_ ? count_line_ends() : 0;
        require(rest_.size() <= 4 * longest_frame, "at most four frames wait");
        std::size_t counted = 0;
        std::size_t counted_pieces = 0;
        for (std::size_t verdict = 0; verdict < verdict_kinds; ++verdict) {
            counted += counts.bytes(static_cast<Verdict>(verdict));
            counted_pieces += counts.pieces(static_cast<Verdict>(verdict));
        }
        require(counted >= bytes_ && counted - bytes_ <= line_ends, "the counted bytes add up");
        require(counted_pieces == pieces_ + (counted - bytes_), "the counted pieces add up");
    }

private:
    void pass_line_ends() {
        while (has_lines_ && !rest_.empty() && ends_line(rest_.front()))
            rest_.remove_prefix(1);
    }

    std::size_t count_line_ends() const {
        return static_cast<std::size_t>(std::ranges::count_if(all_, ends_line));
    }

    std::string_view all_;
    std::string_view rest_;
    bool has_lines_;
    std::size_t bytes_ = 0;
    std::size_t pieces_ = 0;
};

/// Decodes the pieces of `all` one after the other, and hands on each frame.
template <typename Take>
VerdictCounts decode(const Decoding& decoding, std::string_view all, std::span<const std::string_view> pieces,
                     Take take) {
    Decoder decoder(*decoding.driver, decoding.setting);
    if (decoding.at_start) decoder.begin_frame();
    BytesInOrder in_order(all, *decoding.driver);
    for (const std::string_view piece : pieces)
        decoder.feed(piece, [&](Frame& frame) {
            in_order.take(frame.bytes);
            take(frame);
        });
    in_order.require_counted(decoder.counts(), decoding.driver->longest_frame);
    return decoder.counts();
}

/// Feeds the bytes whole and in two pieces. `readings` is room that is kept from one input to the next.
inline void require_sound_decoding(const Decoding& decoding, std::string_view bytes, std::size_t cut,
                                   std::vector<DecodedReading>& readings) {
    readings.clear();
    const std::array<std::string_view, 1> whole{bytes};
    const VerdictCounts counts = decode(decoding, bytes, whole, [&](Frame& frame) {
        require((frame.verdict == Verdict::reading) == !frame.readings.empty(),
                "exactly a frame that is a reading carries readings", frame.bytes);
        for (DecodedReading& each : frame.readings) {
            require_sound(each, decoding);
            readings.push_back(std::move(each));
        }
    });
    const std::array<std::string_view, 2> halves{bytes.substr(0, cut), bytes.substr(cut)};
    std::size_t at = 0;
    const VerdictCounts again = decode(decoding, bytes, halves, [&](const Frame& frame) {
        for (const DecodedReading& each : frame.readings) {
            require(at < readings.size() && each.reading == readings[at].reading &&
                        each.resolution == readings[at].resolution,
                    "bytes in two pieces give the same readings");
            ++at;
        }
    });
    require(at == readings.size(), "bytes in two pieces give as many readings");
    for (std::size_t verdict = 0; verdict < verdict_kinds; ++verdict)
        require(counts.bytes(static_cast<Verdict>(verdict)) == again.bytes(static_cast<Verdict>(verdict)),
                "bytes in two pieces get the same verdicts", name(static_cast<Verdict>(verdict)));
}

} // namespace coilward
