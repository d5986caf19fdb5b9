#include "bench/simulated_meter.h"

#include "meter/line_fields.h"
#include "meter/line_scan.h"
#include "meter/number_forms.h"
#include "meter/numeric_response.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::string_view frequency_mark = "{frequency}";

/// A meter shows somewhat more than its range's name, by custom a fifth.
constexpr double over_the_range = 1.2;

constexpr std::size_t longest_command = 400;

/// The frequency in a command that fits "FREQ {frequency}".
std::optional<double> frequency_in(std::string_view command, std::string_view pattern) {
    const std::size_t mark = pattern.find(frequency_mark);
    if (mark == std::string_view::npos || !command.starts_with(pattern.substr(0, mark))) return std::nullopt;
    const auto number = numeric_response(trimmed(command.substr(mark)));
    if (!number || !(number->value > 0.0)) return std::nullopt;
    return number->value;
}

bool has_command(const MeterSetup& setup, std::string_view command) {
    return std::ranges::find(setup.commands, command) != setup.commands.end();
}

std::string without_star(std::string text) {
    if (text.size() > 1 && text.ends_with('*')) text.pop_back();
    return text;
}

int code_for(const LineProtocol& line, Meaning meaning) {
    const auto found = std::ranges::find(line.status, meaning, &StatusCode::meaning);
    return found == line.status.end() ? 0 : found->code;
}

/// The text of the first word with that meaning.
std::string word_for(const StandIns& known, Meaning meaning) {
    const auto found = std::ranges::find(known, meaning, &StandIn::meaning);
    return found == known.end() ? std::string("----") : found->text;
}

bool is_same_but_for_case(std::string_view a, std::string_view b) {
    const auto small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
    return std::ranges::equal(a, b, {}, small, small);
}

/// The name or unit for the quantity as it is, without a prefix; empty where there is none.
std::string needed_text_for(const NamedValues& named, Quantity quantity, std::optional<Circuit> circuit) {
    for (const auto& [text, value] : named) {
        const bool plain = value.power == 0 && value.offset == 0.0 && value.scale == 1.0;
        const bool circuit_fits = !value.circuit || !circuit || value.circuit == circuit;
        // One that stands for whatever is set is known by its SI name.
        const bool fits = value.quantity
                              ? value.quantity == quantity
                              : value.not_ours.empty() && is_same_but_for_case(text, unit(quantity));
        if (fits && plain && circuit_fits && !text.empty()) return text;
    }
    return {};
}

/// The same, but empty where a bare number will do.
std::string text_for(const NamedValues& named, Quantity quantity, std::optional<Circuit> circuit) {
    if (std::ranges::any_of(named, [](const auto& each) { return each.first.empty(); })) return {};
    return needed_text_for(named, quantity, circuit);
}

} // namespace

SimulatedMeter::SimulatedMeter(const Driver& driver, SimulatedCoil coil, SimulatedNoise noise)
    : driver_(&driver), coil_(std::move(coil)), noise_(noise), random_(noise.seed) {
    setup_ = &driver.setups.front();
}

void SimulatedMeter::turn_to(const MeasurementRequest& request) {
    const MeterSetup* setup = setup_for(*driver_, request);
    if (!setup)
        throw std::invalid_argument(fmt::format("{} cannot measure {}", driver_->id, to_text(request)));
    setup_ = setup;
    if (request.frequency_hz) frequency_hz_ = *request.frequency_hz;
}

std::string SimulatedMeter::answer(std::string_view bytes) {
    pending_ += bytes;
    // The question of a frame protocol may be a letter without an end, or hold ends of its own.
    const std::string poll =
        driver_->poll && driver_->show ? driver_->poll->command + driver_->command_end : "";
    std::string reply;
    for (std::size_t at = 0; !poll.empty() && (at = pending_.find(poll)) != std::string::npos;) {
        const std::string rest = pending_.substr(at + poll.size());
        pending_.resize(at);
        reply += answers_to_lines() + reading();
        pending_ = rest;
    }
    const std::string echo = driver_->echoes_characters ? std::string(bytes) : std::string();
    const bool may_be_poll = !poll.empty() && poll.starts_with(pending_.substr(0, poll.size()));
    return echo + (may_be_poll ? reply : reply + answers_to_lines());
}

/// To the whole lines that wait.
std::string SimulatedMeter::answers_to_lines() {
    std::string reply;
    for (auto end = std::ranges::find_if(pending_, ends_line); end != pending_.end();
         end = std::ranges::find_if(pending_, ends_line)) {
        const std::string command(trimmed({pending_.begin(), end}));
        pending_.erase(pending_.begin(), end + 1);
        if (command.empty()) continue;
        if (const std::string line = answer_to(command); !line.empty()) reply += line + line_end();
    }
    if (pending_.size() > longest_command) pending_.clear();
    return reply;
}

std::string SimulatedMeter::unasked() {
    return reading();
}

std::string SimulatedMeter::reading() {
    return driver_->show ? reading_frames() : reading_line() + line_end();
}

/// As often as the meter sends each.
std::string SimulatedMeter::reading_frames() {
    std::vector<std::optional<double>> values;
    for (std::size_t i = 0; i < setup_->gives.size(); ++i)
        values.push_back(measured(i));
    const std::string frame = driver_->show(values, setting_for(*setup_, frequency_hz()));
    std::string frames;
    for (int i = 0; i < driver_->repeats; ++i)
        frames += frame;
    return frames;
}

/// Of the test signal as it is set; 0 for direct current.
double SimulatedMeter::frequency_hz() const {
    constexpr double of_multimeters_hz = 1000.0; // nobody tells; some such frequency it must be
    if (setup_->frequency_not_stated) return of_multimeters_hz;
    if (!setup_->lowest_frequency_hz) return 0.0;
    return std::clamp(frequency_hz_, *setup_->lowest_frequency_hz, *setup_->highest_frequency_hz);
}

/// A reply ends as a command does; where a command has no end, a line still needs one.
std::string SimulatedMeter::line_end() const {
    return driver_->command_end.empty() ? "\r\n" : driver_->command_end;
}

std::string SimulatedMeter::answer_to(std::string_view command) {
    const Queries& queries = driver_->queries;
    if (driver_->line && driver_->poll && command == driver_->poll->command) return reading_line();
    if (command == queries.function && !setup_->function_names.empty()) return setup_->function_names.front();
    if (!queries.frequency.empty() && command == queries.frequency) return number(frequency_hz());
    if (!queries.identity.empty() && command == queries.identity)
        return fmt::format("COILWARD,SIMULATED {},0,1", driver_->id);
    if (!queries.error.empty() && command == queries.error)
        return std::exchange(misunderstood_, false) ? "-113,\"Undefined header\""
                                                    : queries.no_error.front() + "\"No error\"";
    const bool obeyed = obey(command);
    if (!obeyed) misunderstood_ = true;
    if (driver_->answers.empty()) return {};
    return obeyed || driver_->refusals.empty() ? driver_->answers.front()
                                               : without_star(driver_->refusals.front());
}

/// A set-up command: one that the present setup shares does not change it. False for a command of another
/// meter.
bool SimulatedMeter::obey(std::string_view command) {
    if (std::ranges::find(driver_->start, command) != driver_->start.end()) {
        misunderstood_ = false;
        return true;
    }
    if (has_command(*setup_, command)) return true;
    for (const MeterSetup& setup : driver_->setups) {
        if (has_command(setup, command)) {
            setup_ = &setup;
            return true;
        }
        for (const std::string& pattern : setup.commands) {
            if (const auto frequency = frequency_in(command, pattern)) {
                frequency_hz_ = *frequency;
                return true;
            }
        }
    }
    return false;
}

std::optional<double> SimulatedMeter::measured(std::size_t index) {
    if (index >= setup_->gives.size()) return 0.0;
    const auto truth = coil_(setup_->gives[index], setup_->circuit.value_or(Circuit::series), frequency_hz());
    if (!truth) return std::nullopt;
    std::normal_distribution<double> wander(1.0, noise_.relative);
    std::uniform_real_distribution<double> contact(1.0, 1.0 + noise_.scatter);
    double shown = noise_.relative > 0.0 ? *truth * wander(random_) : *truth;
    if (noise_.scatter > 0.0) shown *= contact(random_);
    if (index == 0 && setup_->range_limit && std::abs(shown) > over_the_range * *setup_->range_limit)
        return std::nullopt;
    return shown;
}

/// In the first layout of the meter's numbers that can hold it; nothing where none can.
std::optional<std::string> SimulatedMeter::number_as_sent(double value) const {
    const auto& forms = driver_->line->numbers.forms;
    if (forms.empty()) return number(value);
    for (const std::string& form : forms)
        if (auto text = written_in_form(value, form, noise_.decimals)) return text;
    return std::nullopt;
}

std::string SimulatedMeter::number(double value) const {
    const NumberForm& form = driver_->line->numbers;
    const bool has_no_sign = (form.forbidden & NumberLook::sign) != 0;
    if ((form.forbidden & NumberLook::any_exponent) != 0)
        return has_no_sign ? fmt::format("{:.{}f}", value, noise_.decimals)
                           : fmt::format("{:+.{}f}", value, noise_.decimals);
    return has_no_sign ? fmt::format("{:.{}E}", value, noise_.decimals)
                       : fmt::format("{:+.{}E}", value, noise_.decimals);
}

/// What the meter sends where it has no number to send.
std::string SimulatedMeter::overload_text() const {
    const LineProtocol& line = *driver_->line;
    const auto sentinel = std::ranges::find(line.sentinels, Meaning::over_range, &Sentinel::meaning);
    if (sentinel == line.sentinels.end()) return word_for(line.words, Meaning::over_range);
    return number_as_sent(sentinel->magnitude).value_or(number(sentinel->magnitude));
}

/// A value field: name, number or what stands in for it, unit. Name and unit may have fields of their own.
std::string SimulatedMeter::value_text(const LineField& field, std::optional<double> value,
                                       const LineLayout& layout) const {
    const LineProtocol& line = *driver_->line;
    const bool is_word = !value && overload_text() == word_for(line.words, Meaning::over_range);
    if (is_word) return overload_text();
    const auto sent = [&](int power) {
        return value ? number_as_sent(*value * std::pow(10.0, -power)) : std::optional(overload_text());
    };
    if (field.index >= setup_->gives.size()) return sent(0).value_or(overload_text());
    const Quantity quantity = setup_->gives[field.index];
    const auto has_field = [&](LineField::Kind kind) {
        return std::ranges::find(layout, kind, &LineField::kind) != layout.end();
    };
    const auto text = [&](LineField::Kind own_field, const NamedValues& named) {
        return has_field(own_field) ? std::string() : text_for(named, quantity, setup_->circuit);
    };
    const std::string key = text(LineField::Kind::key, line.keys);
    const std::string front = key.empty() ? key : key + line.key_joiner;
    const std::string unit = text(LineField::Kind::unit, line.units);
    if (const auto plain = sent(0)) return front + *plain + (unit.empty() ? unit : " " + unit);
    // A number of so few digits may need a prefix.
    for (const auto& [prefixed, named] : line.units)
        if (named.quantity == quantity && named.power != 0 && !has_field(LineField::Kind::unit))
            if (const auto scaled = sent(named.power)) return front + *scaled + prefixed;
    return overload_text();
}

std::string SimulatedMeter::status_text(Meaning meaning) const {
    const int code = code_for(*driver_->line, meaning);
    return driver_->poll ? fmt::format("{:+}", code) : fmt::format("{}", code);
}

/// One reply in the driver's first layout, without its optional fields.
std::string SimulatedMeter::reading_line() {
    const LineProtocol& line = *driver_->line;
    const LineLayout& layout = line.layouts.front();
    std::vector<std::optional<double>> values;
    for (const LineField& field : layout)
        values.push_back(measured(field.index));
    const bool has_status =
        std::ranges::find(layout, LineField::Kind::status, &LineField::kind) != layout.end();
    const bool over = std::ranges::any_of(values, [](const auto& value) { return !value.has_value(); });
    std::vector<std::string> fields;
    for (std::size_t i = 0; i < layout.size() && !layout[i].optional; ++i) {
        switch (layout[i].kind) {
        case LineField::Kind::value:
        case LineField::Kind::values:
            // With a status the whole measurement is overloaded, both numbers.
            fields.push_back(value_text(layout[i], over && has_status ? std::nullopt : values[i], layout));
            break;
        case LineField::Kind::state:
            fields.push_back(word_for(line.states, over ? Meaning::over_range : Meaning::ok));
            break;
        case LineField::Kind::key:
            fields.push_back(needed_text_for(line.keys, setup_->gives.front(), setup_->circuit));
            break;
        case LineField::Kind::unit:
            fields.push_back(needed_text_for(line.units, setup_->gives.front(), setup_->circuit));
            break;
        case LineField::Kind::status:
            fields.push_back(status_text(over ? Meaning::over_range : Meaning::ok));
            break;
        case LineField::Kind::bin:
        case LineField::Kind::integer:
            fields.emplace_back("+0");
            break;
        case LineField::Kind::tagged:
            fields.push_back("+0" + layout[i].tag);
            break;
        case LineField::Kind::text:
            fields.emplace_back("0");
            break;
        }
    }
    return fmt::format("{}", fmt::join(fields, line.separator));
}

} // namespace coilward
