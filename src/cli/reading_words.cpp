#include "cli/reading_words.h"

#include "units/engineering.h"

#include <vector>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr int digits = 6;

std::string number_words(double value, const Reading& reading) {
    return engineering(value, unit(reading.quantity), digits);
}

} // namespace

std::string shown_words(const Reading& reading) {
    const auto limit = [&](std::string_view words) {
        return reading.limit ? fmt::format(" ({} {})", words,
                                           engineering_shortest(*reading.limit, unit(reading.quantity)))
                             : std::string();
    };
    switch (reading.state) {
    case State::over_range:
        return "over range" + limit("beyond");
    case State::under_range:
        return "under range" + limit("below");
    case State::unstable:
        return reading.value ? "unsteady, about " + number_words(*reading.value, reading) : "unsteady";
    case State::ok:
        break;
    }
    return reading.value ? number_words(*reading.value, reading) : "no number";
}

std::string reading_words(const StampedReading& stamped) {
    return fmt::format("{}  {}: {}{}", text_of(stamped.at), describe(stamped.reading),
                       shown_words(stamped.reading), stamped.note.empty() ? "" : " (" + stamped.note + ")");
}

std::string counts_words(const WatchEnd& end) {
    const VerdictCounts& counts = end.counts;
    std::string text = fmt::format("bytes that were no reading: {}", counts.bytes_that_are_no_reading());
    std::vector<std::string> kinds;
    for (const Verdict verdict : {Verdict::too_short, Verdict::no_start, Verdict::bad_structure,
                                  Verdict::bad_check, Verdict::senseless, Verdict::not_live})
        if (counts.pieces(verdict) > 0)
            kinds.push_back(fmt::format("{} {}", name(verdict), counts.pieces(verdict)));
    if (!kinds.empty()) text += fmt::format(" ({})", fmt::join(kinds, ", "));
    if (!end.last_note.empty()) text += "; last: " + end.last_note;
    return text;
}

} // namespace coilward
