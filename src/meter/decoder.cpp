#include "meter/decoder.h"

#include "meter/line_fields.h"
#include "meter/line_scan.h"

#include <algorithm>
#include <utility>

namespace coilward {

Decoder::Decoder(const Driver& driver, MeterSetting setting)
    : driver_(&driver), line_(driver.line ? &*driver.line : nullptr), setting_(std::move(setting)) {}

void Decoder::set(MeterSetting setting) {
    setting_ = std::move(setting);
}

void Decoder::begin_frame(std::string_view question) {
    if (is_mid_frame()) counts_.add(at_boundary_ ? Verdict::too_short : Verdict::no_start, waiting_.size());
    waiting_.clear();
    at_boundary_ = true;
    question_ = question;
}

/// Frames are found in the bytes where they are; only the beginning of the next one is copied.
void Decoder::feed(std::string_view bytes, const FrameSink& sink) {
    if (waiting_.empty()) {
        const std::size_t used = scan_all(bytes, sink);
        waiting_ = bytes.substr(used);
    } else {
        waiting_ += bytes;
        const std::size_t used = scan_all(waiting_, sink);
        waiting_.erase(0, used);
    }
}

/// Hands on all whole frames and gives the number of bytes in them. A line of a dozen characters goes through
/// as many functions, and a fifth of the time would go into calling them: here they become one.
[[gnu::flatten]] std::size_t Decoder::scan_all(std::string_view bytes, const FrameSink& sink) {
    const std::size_t most = 4 * driver_->longest_frame;
    const bool has_lines = line_ != nullptr;
    std::string_view rest = bytes;
    Frame frame; // one for all of them: making a new one takes as long as reading a number
    for (;;) {
        if (has_lines) rest.remove_prefix(line_ends_at_front(rest));
        if (rest.empty()) break;
        clear(frame);
        std::size_t used = scan_front(rest.substr(0, most), frame);
        if (used == 0) {
            if (rest.size() < most) break;
            used = 1; // no scan may wait for more than this
            frame.verdict = Verdict::no_start;
        }
        frame.bytes = rest.substr(0, used);
        rest.remove_prefix(used);
        judge(frame);
        sink(frame);
    }
    return bytes.size() - rest.size();
}

/// Counts the characters there that end lines.
std::size_t Decoder::line_ends_at_front(std::string_view bytes) {
    std::size_t count = 0;
    while (count < bytes.size() && ends_line(bytes[count]))
        ++count;
    if (count == 0) return 0;
    counts_.add(Verdict::aside, count, count);
    at_boundary_ = true;
    return count;
}

/// Fills the empty frame; gives its length, or 0 where more bytes are needed.
std::size_t Decoder::scan_front(std::string_view bytes, Frame& frame) {
    if (line_) return scan_line(bytes, *line_, setting_, at_boundary_, room_, frame);
    return std::min(driver_->scan(bytes, setting_, frame), bytes.size());
}

/// What the frame is in its place in the stream.
void Decoder::judge(Frame& frame) {
    at_boundary_ = !line_;
    if (is_echo(frame)) frame.verdict = Verdict::aside;
    if (frame.verdict == Verdict::reading && !is_written_as_before(frame)) {
        frame.verdict = Verdict::bad_structure;
        frame.readings.clear();
    }
    if (frame.verdict == Verdict::reading && !repeated_often_enough(frame)) {
        frame.verdict = Verdict::aside;
        frame.readings.clear();
    }
    counts_.add(frame.verdict, frame.bytes.size());
}

bool Decoder::is_echo(const Frame& frame) const {
    return !question_.empty() && line_ && trimmed(frame.bytes) == question_;
}

/// A meter always writes as many digits. One that has written as its document prints lost or won a digit on
/// the way where it does otherwise; one that never did is believed once it holds to another form.
bool Decoder::is_written_as_before(const Frame& frame) {
    constexpr int enough_to_believe = 3;
    if (frame.unusual_digits == 0) writes_as_printed_ = true;
    if (writes_as_printed_) return frame.unusual_digits == 0;
    unusual_in_a_row_ = frame.unusual_digits == unusual_digits_ ? unusual_in_a_row_ + 1 : 1;
    unusual_digits_ = frame.unusual_digits;
    if (unusual_in_a_row_ >= enough_to_believe) own_digits_ = unusual_digits_;
    return own_digits_ == unusual_digits_;
}

/// The last of the equal frames counts; those before it wait for it.
bool Decoder::repeated_often_enough(const Frame& frame) {
    if (driver_->repeats <= 1) return true;
    equal_in_a_row_ = frame.bytes == previous_ ? equal_in_a_row_ + 1 : 1;
    previous_ = frame.bytes;
    if (equal_in_a_row_ < driver_->repeats) return false;
    equal_in_a_row_ = 0;
    return true;
}

} // namespace coilward
