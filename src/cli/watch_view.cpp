#include "cli/watch_view.h"

#include "cli/reading_words.h"

#include <algorithm>
#include <chrono>
#include <cstdio>

#include <fmt/format.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;

/// The slowest meters send every two seconds; a pause that long is no silence yet.
constexpr milliseconds silent_from{3000};

constexpr seconds rate_over{5};
constexpr std::size_t most_shown = 4;

/// Readings a second, over the last few seconds.
double rate_of(const std::deque<Moment>& recent) {
    if (recent.size() < 2) return 0.0;
    const std::chrono::duration<double> span = recent.back() - recent.front();
    return span.count() > 0.0 ? static_cast<double>(recent.size() - 1) / span.count() : 0.0;
}

void keep(WatchRow& row, const StampedReading& stamped) {
    ++row.readings;
    row.recent.push_back(stamped.at);
    while (stamped.at - row.recent.front() > rate_over)
        row.recent.pop_front();
    const std::string what = describe(stamped.reading);
    const auto known = std::ranges::find(row.shown, what, &std::pair<std::string, std::string>::first);
    if (known != row.shown.end()) {
        known->second = shown_words(stamped.reading);
        return;
    }
    if (row.shown.size() == most_shown) row.shown.erase(row.shown.begin());
    row.shown.emplace_back(what, shown_words(stamped.reading));
}

/// What the person should know of a reading beside its number.
std::string state_of(const WatchRow& row, const StampedReading& stamped) {
    const bool asked =
        row.wanted.empty() || std::ranges::find(row.wanted, stamped.reading.quantity) != row.wanted.end();
    if (asked) return stamped.note;
    return fmt::format("wrong function: the meter shows {}", describe(stamped.reading));
}

std::string state_of(const Quiet& quiet) {
    if (!quiet.note.empty()) return quiet.note;
    const auto whole_seconds = std::chrono::floor<seconds>(quiet.lasted).count();
    if (quiet.bytes > 0)
        return fmt::format("bytes arrive, but no reading for {} s; check speed, parity and --meter",
                           whole_seconds);
    return fmt::format("silent for {} s", whole_seconds);
}

} // namespace

std::string row_words(const WatchRow& row) {
    std::string text = fmt::format("{} on {}", row.meter, row.port);
    for (const auto& [what, shown] : row.shown)
        text += fmt::format("  {}: {}", what, shown);
    text += fmt::format("  {:.1f}/s", rate_of(row.recent));
    if (row.count) text += fmt::format("  {} of {}", row.readings, *row.count);
    if (!row.state.empty()) text += "  " + row.state;
    return text;
}

WatchView::WatchView(std::vector<WatchRow> rows, WatchForm form) : rows_(std::move(rows)), form_(form) {}

void WatchView::take(std::size_t index, const StampedReading& stamped) {
    const std::scoped_lock lock(mutex_);
    WatchRow& row = rows_[index];
    keep(row, stamped);
    row.state = state_of(row, stamped);
    row.told.clear();
    switch (form_) {
    case WatchForm::json:
        fmt::print("{}\n", watch_line(stamped));
        break;
    case WatchForm::lines:
        if (rows_.size() > 1) fmt::print("{}  ", row.meter);
        fmt::print("{}\n", reading_words(stamped));
        break;
    case WatchForm::screen:
        redraw();
    }
    std::fflush(stdout);
}

void WatchView::take(std::size_t index, const Quiet& quiet) {
    if (form_ == WatchForm::json || (quiet.lasted < silent_from && quiet.note.empty())) return;
    const std::scoped_lock lock(mutex_);
    WatchRow& row = rows_[index];
    row.recent.clear();
    const std::string told = quiet.note.empty() ? "silent" : quiet.note;
    if (form_ == WatchForm::lines && row.told == told) return; // a line is said once
    row.told = told;
    say(index, state_of(quiet));
}

void WatchView::lost(std::size_t row) {
    const std::scoped_lock lock(mutex_);
    rows_[row].recent.clear();
    say(row, "unplugged; it goes on by itself when the meter is back");
}

void WatchView::back(std::size_t row) {
    const std::scoped_lock lock(mutex_);
    say(row, "back");
}

void WatchView::say(std::size_t index, const std::string& state) {
    WatchRow& row = rows_[index];
    row.state = state;
    if (form_ == WatchForm::screen)
        redraw();
    else
        fmt::print(stderr, "coilward: {}: {}\n", row.port, state);
}

void WatchView::redraw() {
    if (drawn_) fmt::print("\x1b[{}A", rows_.size());
    for (const WatchRow& row : rows_)
        fmt::print("\x1b[2K{}\n", row_words(row));
    drawn_ = true;
    std::fflush(stdout);
}

} // namespace coilward
