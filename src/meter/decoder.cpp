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
    if (!buffer_.empty()) counts_.add(at_boundary_ ? Verdict::too_short : Verdict::no_start, buffer_.size());
    buffer_.clear();
    at_boundary_ = true;
    question_ = question;
}

std::vector<Frame> Decoder::feed(std::string_view bytes) {
    std::vector<Frame> frames;
    const std::size_t most = 4 * driver_->longest_frame;
    while (!bytes.empty()) {
        const std::size_t taken = std::min(bytes.size(), most - buffer_.size());
        buffer_ += bytes.substr(0, taken);
        bytes.remove_prefix(taken);
        for (Scan scan = scan_front(); scan.used > 0; scan = scan_front())
            frames.push_back(take(std::move(scan)));
        if (buffer_.size() >= most) // no scan may wait for more than this
            frames.push_back(take({.used = 1, .frame = {.verdict = Verdict::no_start}}));
    }
    return frames;
}

Scan Decoder::scan_front() const {
    if (buffer_.empty()) return {};
    if (driver_->line) return scan_line(buffer_, *driver_->line, setting_, at_boundary_);
    Scan scan = driver_->scan(buffer_, setting_);
    scan.used = std::min(scan.used, buffer_.size());
    return scan;
}

Frame Decoder::take(Scan scan) {
    scan.frame.bytes = buffer_.substr(0, scan.used);
    buffer_.erase(0, scan.used);
    at_boundary_ = driver_->line ? ends_line(scan.frame.bytes.back()) : true;
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
    equal_in_a_row_ = frame.bytes == previous_ ? equal_in_a_row_ + 1 : 1;
    previous_ = frame.bytes;
    if (equal_in_a_row_ < driver_->repeats) return false;
    equal_in_a_row_ = 0;
    return true;
}

} // namespace coilward
