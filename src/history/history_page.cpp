#include "history/history_page.h"

#include "units/engineering.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr int page_width = 100;

/// The text in exactly so many columns, without line breaks.
std::string cell(std::string text, int width) {
    std::ranges::replace_if(
        text, [](char character) { return static_cast<unsigned char>(character) < ' '; }, ' ');
    auto fitted = fmt::format("{:<{}.{}}", text, width, width);
    if (fitted.find(text) == std::string::npos) fitted = fmt::format("{:.{}}…", text, width - 1);
    return fitted;
}

std::string line(std::string text) {
    text.erase(text.find_last_not_of(' ') + 1);
    return text + '\n';
}

std::string date_in(Moment at) {
    return text_of(at).substr(0, 10);
}

/// "2026-03-02 10:05 UTC"
std::string minute_in(Moment at) {
    return fmt::format("{} {} UTC", date_in(at), text_of(at).substr(11, 5));
}

std::string heading(const Pickup& pickup) {
    return line(cell(fmt::format("Pickup {}: {}", pickup.number, pickup.name), page_width));
}

std::string list_row(const std::string& number, const std::string& name, const std::string& owner,
                     const std::string& instrument, const std::string& type) {
    return line(fmt::format("{:>5}  {} {} {} {}", number, cell(name, 30), cell(owner, 18),
                            cell(instrument, 22), cell(type, 20)));
}

/// "owner      A. Nonymous", or nothing where there is none.
std::string fact(const char* title, const std::string& value) {
    if (value.empty()) return "";
    return line(fmt::format("  {:<11}{}", title, cell(value, page_width - 13)));
}

std::string in_words(const std::vector<Visit>& visits) {
    if (visits.empty()) return "none yet";
    return fmt::format("{}, the last on {}", visits.size(), minute_in(visits.back().at));
}

std::string amount(double value, const Reading& reading) {
    return engineering(value, unit(reading.quantity));
}

std::string beyond(const char* side, const Reading& reading) {
    return reading.limit ? fmt::format("{} {}", side, amount(*reading.limit, reading))
                         : fmt::format("{} range", side);
}

std::string unstable(const Reading& reading) {
    std::string text = reading.value ? amount(*reading.value, reading) + ", " : "";
    text += "wandering";
    if (reading.spread) text += " ± " + amount(*reading.spread, reading);
    return text;
}

/// Of a kick, or of a magnet's pole by compass.
std::string_view sign_of(const Reading& reading) {
    switch (*reading.polarity) {
    case Polarity::as_expected:
        return "as expected";
    case Polarity::reversed:
        return "reversed";
    case Polarity::none:
        return reading.quantity == Quantity::magnet_pole ? "no magnet" : "no kick";
    }
    return "";
}

/// A day's readings have their time, a later correction its date.
std::string when(const StoredReading& stored, const Visit& visit) {
    return date_in(stored.at) == date_in(visit.at) ? text_of(stored.at).substr(11, 8) : date_in(stored.at);
}

std::string reading_row(const StoredReading& stored, const Visit& visit, bool corrected, bool with_id) {
    auto nameless = stored.reading;
    nameless.coil.clear();
    const auto id = with_id ? text_of(stored.id).substr(0, 8) + ' ' : std::string();
    auto row = line(fmt::format("{}{} {} {} {} {} {}", id, corrected ? 'x' : ' ',
                                cell(when(stored, visit), 10), cell(stored.reading.coil, 8),
                                cell(describe(nameless), 40), cell(answer_in_words(stored.reading), 24),
                                cell(stored.meter.empty() ? "by hand" : stored.meter, 12)));
    if (!stored.remark.empty()) row += line(fmt::format("{:22}{}", "", cell(stored.remark, page_width - 22)));
    return row;
}

std::string percent(double probability) {
    return probability > 0.9995 ? "> 99.9 %" : fmt::format("{:.1f} %", 100.0 * probability);
}

std::string verdict_row(const StoredVerdict& verdict) {
    return line(
        cell(fmt::format("  verdict    {}{}{}, {}{}", verdict.coil, verdict.coil.empty() ? "" : ": ",
                         verdict.fault, percent(verdict.probability), verdict.decided ? "" : ", not decided"),
             page_width));
}

/// Those that count no more.
std::set<Id> corrected_in(const std::vector<StoredReading>& readings) {
    std::set<Id> corrected;
    for (const auto& reading : readings)
        corrected.insert(reading.id);
    for (const auto& reading : current_readings(readings))
        corrected.erase(reading.id);
    return corrected;
}

std::string visit_section(const History& history, const Visit& visit, bool with_ids) {
    auto section = '\n' + line(cell(fmt::format("{}  {}{}", minute_in(visit.at), visit.stage,
                                                visit.rewound ? " (rewound)" : ""),
                                    page_width));
    if (!visit.notes.empty()) section += line("  " + cell(visit.notes, page_width - 2));
    const auto readings = history.readings_of(visit.id);
    const auto corrected = corrected_in(readings);
    for (const auto& reading : readings)
        section += reading_row(reading, visit, corrected.contains(reading.id), with_ids);
    for (const auto& verdict : history.verdicts_of(visit.id))
        section += verdict_row(verdict);
    if (!corrected.empty()) section += "x corrected by a reading below it\n";
    return section;
}

} // namespace

std::string pickup_list_page(const std::vector<Pickup>& pickups) {
    auto page = list_row("No.", "Name", "Owner", "Instrument", "Type");
    for (const auto& pickup : pickups)
        page += list_row(std::to_string(pickup.number), pickup.name, pickup.owner, pickup.instrument,
                         pickup.pickup_type);
    return page;
}

std::string pickup_page(const Pickup& pickup, const std::vector<PickupChange>& changes,
                        const std::vector<Visit>& visits, const std::vector<Attachment>& attachments) {
    auto page = heading(pickup) + fact("owner", pickup.owner) + fact("instrument", pickup.instrument) +
                fact("type", pickup.pickup_type) + fact("coils", coils_in_words(pickup.coils)) +
                fact("notes", pickup.notes) + fact("added", minute_in(pickup.added_at)) +
                fact("visits", in_words(visits));
    for (const auto& attachment : attachments)
        page += fact("attached", fmt::format("{}: {} ({}, {}) {}", minute_in(attachment.at), attachment.name,
                                             attachment.media_type, text_of(attachment.content).substr(0, 12),
                                             attachment.note));
    for (const auto& change : changes)
        page += fact("changed",
                     fmt::format("{}: {} was \"{}\"", minute_in(change.at), change.field, change.former));
    return page;
}

std::string history_page(const History& history, const Pickup& pickup, bool with_ids) {
    const auto visits = history.visits_of(pickup.id);
    auto page = heading(pickup);
    if (visits.empty()) page += "  no visits yet\n";
    for (const auto& visit : visits)
        page += visit_section(history, visit, with_ids);
    return page;
}

std::string answer_in_words(const Reading& reading) {
    if (reading.polarity) return std::string(sign_of(reading));
    switch (reading.state) {
    case State::over_range:
        return beyond("over", reading);
    case State::under_range:
        return beyond("under", reading);
    case State::unstable:
        return unstable(reading);
    case State::ok:
        break;
    }
    if (!reading.value) return "no value";
    if (!reading.standard_uncertainty) return amount(*reading.value, reading);
    return engineering_with_uncertainty(*reading.value, *reading.standard_uncertainty,
                                        unit(reading.quantity));
}

} // namespace coilward
