#include "meter/decoder.h"

#include "meter/line_fields.h"
#include "meter/line_scan.h"

#include <algorithm>
#include <utility>

namespace coilward {

Decoder::Decoder(const Driver& driver, MeterSetting setting)
    : driver_(&driver), setting_(std::move(setting)) {}

void Decoder::set(MeterSetting setting) {
    setting_ = std::move(setting);
}

void Decoder::begin_frame(std::string_view question) {
    if (is_mid_frame()) counts_.add(at_boundary_ ? Verdict::too_short : Verdict::no_start, waiting().size());
    buffer_.clear();
    begin_ = 0;
    at_boundary_ = true;
    question_ = question;
}

std::vector<Frame> Decoder::feed(std::string_view bytes) {
    std::vector<Frame> frames;
    const std::size_t most = 4 * driver_->longest_frame;
    constexpr std::size_t usual_frame = 16; // bytes; saves moving the frames about
    frames.reserve(bytes.size() / usual_frame + 1);
    while (!bytes.empty()) {
        const std::size_t taken = std::min(bytes.size(), most - buffer_.size());
        buffer_ += bytes.substr(0, taken);
        bytes.remove_prefix(taken);
        scan_waiting(frames);
        if (waiting().size() >= most) // no scan may wait for more than this
            frames.push_back(take({.used = 1, .frame = {.verdict = Verdict::no_start}}));
        buffer_.erase(0, begin_);
        begin_ = 0;
    }
    return frames;
}

void Decoder::scan_waiting(std::vector<Frame>& frames) {
    for (;;) {
        if (driver_->line) skip_line_ends();
        Scan scan = scan_front();
        if (scan.used == 0) return;
        frames.push_back(take(std::move(scan)));
    }
}

void Decoder::skip_line_ends() {
    for (; begin_ < buffer_.size() && ends_line(buffer_[begin_]); ++begin_) {
        counts_.add(Verdict::aside, 1);
        at_boundary_ = true;
    }
}

Scan Decoder::scan_front() const {
    if (!is_mid_frame()) return {};
    if (driver_->line) return scan_line(waiting(), *driver_->line, setting_, at_boundary_);
    Scan scan = driver_->scan(waiting(), setting_);
    scan.used = std::min(scan.used, waiting().size());
    return scan;
}

Frame Decoder::take(Scan scan) {
    scan.frame.bytes = waiting().substr(0, scan.used);
    begin_ += scan.used;
    at_boundary_ = !driver_->line;
    if (is_echo(scan.frame)) scan.frame.verdict = Verdict::aside;
    if (scan.frame.verdict == Verdict::reading && !repeated_often_enough(scan.frame)) {
        scan.frame.verdict = Verdict::aside;
        scan.frame.readings.clear();
    }
    counts_.add(scan.frame.verdict, scan.frame.bytes.size());
    return std::move(scan.frame);
}

bool Decoder::is_echo(const Frame& frame) const {
    return driver_->line && !question_.empty() && trimmed(frame.bytes) == question_;
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
