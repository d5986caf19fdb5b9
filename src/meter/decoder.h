#pragma once

#include "meter/driver.h"
#include "meter/frame.h"

#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// Turns the bytes of one meter into judged frames, however they are cut into pieces. Holds at most four
/// frame lengths. The driver must outlive it.
class Decoder {
public:
    explicit Decoder(const Driver&, MeterSetting = {});

    void set(MeterSetting);

    /// Says that the next byte begins a frame: this question is about to be sent, or the stream was just
    /// opened at its beginning. A half frame in the buffer is counted as too short; a line that only repeats
    /// the question is the meter's echo. Until then a line protocol trusts a line only after it has seen the
    /// end of one, because the stream may have been opened in the middle.
    void begin_frame(std::string_view question = {});

    /// Counts bytes that were not given to feed(), because they came before anything was asked.
    void count_as(Verdict verdict, std::size_t bytes) { counts_.add(verdict, bytes); }

    /// Takes bytes in and gives the frames that are now complete. The characters that end lines are counted
    /// as asides, but are no frames.
    std::vector<Frame> feed(std::string_view bytes);

    /// True while part of a frame has arrived.
    bool is_mid_frame() const { return begin_ < buffer_.size(); }

    const VerdictCounts& counts() const { return counts_; }

private:
    std::string_view waiting() const { return std::string_view(buffer_).substr(begin_); }

    void scan_waiting(std::vector<Frame>&);
    void skip_line_ends();
    Scan scan_front() const;
    Frame take(Scan);
    bool repeated_often_enough(const Frame&);
    bool is_echo(const Frame&) const;

    const Driver* driver_;
    MeterSetting setting_;
    std::string buffer_;
    std::size_t begin_ = 0; ///< of what is not yet judged, in buffer_
    bool at_boundary_ = false;
    std::string question_;
    std::string previous_; ///< bytes of the frame before, where the meter repeats each
    int equal_in_a_row_ = 0;
    VerdictCounts counts_;
};

} // namespace coilward
