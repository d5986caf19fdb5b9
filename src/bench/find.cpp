#include "bench/find.h"

#include "bench/serial_transport.h"
#include "meter/decoder.h"
#include "meter/instrument_names.h"
#include "meter/line_fields.h"
#include "meter/line_split.h"
#include "meter/measurement.h"

#include <algorithm>
#include <deque>
#include <functional>
#include <set>
#include <system_error>
#include <tuple>
#include <utility>

#include <fmt/format.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;

/// From here on it is no accident: a single line can be many things.
constexpr int readings_that_tell = 3;
constexpr int fewest_readings = 2;

constexpr milliseconds one_look{100};
constexpr std::size_t longest_answer = 400;

/// One driver, with its meter set in one way.
struct Ear {
    const Driver* driver;
    Decoder decoder;
    int readings = 0;
};

std::deque<Ear> ears_of(const std::vector<const Driver*>& drivers) {
    std::deque<Ear> ears;
    for (const Driver* driver : drivers)
        for (const MeterSetup& setup : driver->setups)
            ears.push_back({driver, Decoder(*driver, setting_for(setup, frequency_for(setup, {})))});
    return ears;
}

/// False once nothing more can come.
bool wait_and_hear(Link& link, std::deque<Ear>& ears, std::size_t& bytes) {
    const Received received = link.transport->read(one_look);
    bytes += received.bytes.size();
    for (Ear& ear : ears)
        ear.decoder.feed(received.bytes, [&](const Frame& frame) {
            if (frame.verdict == Verdict::reading) ++ear.readings;
        });
    return received.outcome == LinkOutcome::done || received.outcome == LinkOutcome::timeout;
}

bool has_heard_enough(const std::deque<Ear>& ears) {
    return std::ranges::any_of(ears, [](const Ear& ear) { return ear.readings >= readings_that_tell; });
}

/// Gives the number of bytes that came.
std::size_t listen(Link& link, const std::vector<const Driver*>& drivers, const FindOrder& order,
                   PortFinding& found) {
    std::deque<Ear> ears = ears_of(drivers);
    std::size_t bytes = 0;
    if (link.transport->starts_at_a_frame())
        for (Ear& ear : ears)
            ear.decoder.begin_frame();
    const milliseconds deadline = link.clock->elapsed() + order.listen;
    while (!order.stop() && !has_heard_enough(ears) && link.clock->elapsed() < deadline)
        if (!wait_and_hear(link, ears, bytes)) break;
    for (const Ear& ear : ears)
        if (ear.readings >= fewest_readings &&
            std::ranges::find(found.heard, ear.driver) == found.heard.end())
            found.heard.push_back(ear.driver);
    if (found.heard.empty()) found.bytes += bytes;
    return bytes;
}

/// A driver's line matters only on a serial port.
bool has_line_settings(const Port& port) {
    const auto* device = std::get_if<DevicePort>(&port);
    if (!device) return false;
    std::error_code ignored;
    const auto resolved = std::filesystem::canonical(device->path, ignored);
    return is_serial_port(resolved.empty() ? device->path.string() : resolved.string());
}

auto line_of(const SerialSettings& line) {
    return std::tuple(line.baud, line.data_bits, line.parity, line.stop_bits, line.dtr, line.rts);
}

using DriverGroups = std::vector<std::vector<const Driver*>>;

/// The drivers in groups of equal key, in the order of their first ones.
template <typename Wanted, typename Same>
DriverGroups grouped(const std::vector<Driver>& drivers, Wanted wanted, Same same) {
    DriverGroups groups;
    for (const Driver& driver : drivers) {
        if (!wanted(driver)) continue;
        const auto group =
            std::ranges::find_if(groups, [&](const auto& each) { return same(*each.front(), driver); });
        if (group == groups.end())
            groups.push_back({&driver});
        else
            group->push_back(&driver);
    }
    return groups;
}

/// What the meter answers, until the line is quiet; empty for what is no text.
std::string answer_to(const std::string& question, Link& link, milliseconds within) {
    if (link.transport->write(question) != LinkOutcome::done) return {};
    std::string text;
    const milliseconds deadline = link.clock->elapsed() + within;
    while (link.clock->elapsed() < deadline && text.size() < longest_answer) {
        const Received received = link.transport->read(one_look);
        text += received.bytes;
        if (received.outcome == LinkOutcome::done) continue;
        if (received.outcome != LinkOutcome::timeout || text.find_first_of("\r\n") != std::string::npos)
            break;
    }
    for (char& character : text) {
        if (character == '\r' || character == '\n') character = ' ';
        if (character < ' ' || character > '~') return {};
    }
    return std::string(trimmed(text));
}

bool contains_one_of(const std::string& answer, const std::vector<std::string>& texts) {
    return std::ranges::any_of(
        texts, [&](const std::string& text) { return answer.find(text) != std::string::npos; });
}

/// The drivers whose meter answers so: those that know it, else those that know no answer.
void judge_answer(const std::string& answer, const std::vector<const Driver*>& group, PortFinding& found) {
    found.answer = answer;
    for (const Driver* driver : group) {
        const auto instrument = instrument_named_in(*driver, answer);
        if (instrument) found.instrument = *instrument;
        if (instrument || contains_one_of(answer, driver->queries.identity_contains))
            found.asked.push_back(driver);
    }
    if (!found.asked.empty()) return;
    for (const Driver* driver : group)
        if (driver->queries.identity_contains.empty()) found.asked.push_back(driver);
}

/// Those that ask this question, be it with another terminator; on that line only, where there is one.
std::vector<const Driver*> askers_of(const std::string& question, const std::vector<Driver>& drivers,
                                     const SerialSettings* line) {
    std::vector<const Driver*> askers;
    for (const Driver& driver : drivers)
        if (driver.queries.identity == question && (!line || line_of(*line) == line_of(driver.serial)))
            askers.push_back(&driver);
    return askers;
}

void ask(const LineOpener& open, const std::vector<Driver>& drivers, bool by_line, const FindOrder& order,
         PortFinding& found) {
    const auto groups = grouped(
        drivers, [](const Driver& driver) { return !driver.queries.identity.empty(); },
        [&](const Driver& a, const Driver& b) {
            const auto question = [](const Driver& d) { return d.queries.identity + d.command_end; };
            return question(a) == question(b) && (!by_line || line_of(a.serial) == line_of(b.serial));
        });
    for (const auto& group : groups) {
        if (order.stop()) return;
        const Driver& first = *group.front();
        if (by_line)
            order.progress(fmt::format("asking {} at {}", first.queries.identity, in_words(first.serial)));
        Link link = open(first.serial);
        const std::string answer =
            answer_to(first.queries.identity + first.command_end, link, first.queries.answer_within);
        const std::string& question = first.queries.identity;
        if (answer.empty() || answer == question) continue; // an echo is no answer
        judge_answer(answer, askers_of(question, drivers, by_line ? &first.serial : nullptr), found);
        if (!found.asked.empty()) return;
    }
}

} // namespace

bool can_be_heard(const Driver& driver) {
    return driver.frame_check != FrameCheck::none;
}

PortFinding find_meter(const Port& port, const std::vector<Driver>& drivers, const FindOrder& order) {
    return find_meter([&](const SerialSettings& line) { return open_port(port, line); },
                      has_line_settings(port), drivers, order);
}

std::string in_words(const SerialSettings& line) {
    const std::string_view parity = line.parity == Parity::none  ? "no"
                                    : line.parity == Parity::odd ? "odd"
                                                                 : "even";
    return fmt::format("{} baud, {} data bits, {} parity, {} stop bit{}", line.baud, line.data_bits, parity,
                       line.stop_bits, line.stop_bits == 1 ? "" : "s");
}

PortFinding find_meter(const LineOpener& open, bool is_serial_line, const std::vector<Driver>& drivers,
                       const FindOrder& order) {
    const auto is_worth_listening = [&](const Driver& driver) {
        return can_be_heard(driver) && (!is_serial_line || !driver.poll);
    };
    auto groups = grouped(drivers, is_worth_listening, [&](const Driver& a, const Driver& b) {
        return !is_serial_line || line_of(a.serial) == line_of(b.serial);
    });
    std::ranges::stable_sort(groups, std::ranges::greater{}, [](const auto& group) { return group.size(); });
    PortFinding found;
    std::set<std::pair<bool, bool>> silent; // with these control lines
    for (const auto& group : groups) {
        const SerialSettings& line = group.front()->serial;
        if (order.stop() || !found.heard.empty()) break;
        if (silent.contains({line.dtr, line.rts})) continue;
        if (is_serial_line) order.progress("listening at " + in_words(line));
        Link link = open(line);
        if (listen(link, group, order, found) == 0 && is_serial_line) silent.insert({line.dtr, line.rts});
    }
    if (order.ask && found.heard.empty() && !order.stop()) ask(open, drivers, is_serial_line, order, found);
    return found;
}

} // namespace coilward
