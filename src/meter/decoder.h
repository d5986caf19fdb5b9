#pragma once

#include "meter/driver.h"
#include "meter/frame.h"
#include "meter/line_fields.h"

#include <functional>
#include <string>
#include <string_view>

namespace coilward {

/// Takes a frame that is complete. Its bytes live until the call ends; the rest may be moved out of it.
using FrameSink = std::function<void(Frame&)>;

/// Turns the bytes of one meter into judged frames, however they are cut into pieces. Keeps at most four
/// frame lengths. The driver must outlive it.
class Decoder {
public:
    /// The driver must outlive it.
    explicit Decoder(const Driver&, MeterSetting = {});

    /// What the frames from now on mean.
    void set(MeterSetting);

    /// Says that the next byte begins a frame: this question is about to be sent, or the stream was just
    /// opened at its beginning. A half frame that waits is counted as too short; a line that only repeats
    /// the question is the meter's echo. Until then a line protocol trusts a line only after it has seen the
    /// end of one, because the stream may have been opened in the middle.
    void begin_frame(std::string_view question = {});

    /// Counts bytes that were not given to feed(), because they came before anything was asked.
    void count_as(Verdict verdict, std::size_t bytes) { counts_.add(verdict, bytes); }

    /// Takes bytes in and hands on the frames that are now complete. The characters that end lines are
    /// counted as asides, but are no frames.
    void feed(std::string_view bytes, const FrameSink&);

    /// True while part of a frame has arrived.
    bool is_mid_frame() const { return !waiting_.empty(); }

    /// Of all pieces so far.
    const VerdictCounts& counts() const { return counts_; }

private:
    std::size_t scan_all(std::string_view bytes, const FrameSink&);
    std::size_t line_ends_at_front(std::string_view bytes);
    std::size_t scan_front(std::string_view bytes, Frame&);
    void judge(Frame&);
    bool repeated_often_enough(const Frame&);
    bool is_echo(const Frame&) const;
    bool is_written_as_before(const Frame&);

    const Driver* driver_;
    const LineProtocol* line_; ///< the driver's; nothing where it has frames
    MeterSetting setting_;
    std::string waiting_; ///< the beginning of a frame
    bool at_boundary_ = false;
    std::string question_;
    std::string previous_; ///< bytes of the frame before, where the meter repeats each
    int equal_in_a_row_ = 0;
    bool writes_as_printed_ = false; ///< a number came in a form of the meter's document
    int own_digits_ = 0;             ///< of a meter that writes otherwise
    int unusual_digits_ = 0;         ///< of the last number that did
    int unusual_in_a_row_ = 0;
    VerdictCounts counts_;
    LineRoom room_;
};

} // namespace coilward
