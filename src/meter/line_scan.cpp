#include "meter/line_scan.h"

#include "meter/line_fields.h"
#include "meter/line_names.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {
namespace {

bool is_aside(std::string_view line, const LineProtocol& protocol) {
    return std::ranges::any_of(protocol.asides,
                               [&](const std::string& aside) { return is_like(line, aside); });
}

/// What the status field or word says, with its note; a code that the driver does not list is a fault.
Meaning take_status(const LineFields& line, const LineProtocol& protocol, std::string& note) {
    if (line.state) {
        note = line.state->note;
        return line.state->meaning;
    }
    if (!line.status) return Meaning::ok;
    const auto known = std::ranges::find(protocol.status, *line.status, &StatusCode::code);
    if (known != protocol.status.end()) {
        note = known->note;
        return known->meaning;
    }
    note = fmt::format("status {:+} is not one that this meter is known to send", *line.status);
    return Meaning::fault;
}

State out_of_range(const FieldValue& field, Quantity quantity, Meaning meaning) {
    // Only a voltage has a lower end that can be passed; a negative overload of a resistance is an overload.
    const bool below = field.negative && quantity == Quantity::dc_voltage;
    return below || meaning == Meaning::under_range ? State::under_range : State::over_range;
}

/// Adds the reading of one field, if it holds one: none where no quantity is set for it, where it is not of
/// this bench, or is "not a number".
void add_reading(const FieldValue& field, Meaning meaning, const MeterSetting& setting,
                 DecodedReadings& readings) {
    if (field.not_ours || !field.ambiguous.empty()) return;
    auto quantity = field.quantity;
    if (!quantity && field.index < setting.quantities.size()) quantity = setting.quantities[field.index];
    if (!quantity || meaning == Meaning::no_data || meaning == Meaning::fault) return;
    DecodedReading& decoded = readings.emplace_back(*quantity, setting);
    Reading& reading = decoded.reading;
    if (field.circuit && has_circuit(*quantity)) reading.circuit = field.circuit;
    if (meaning == Meaning::ok) {
        reading.value = field.value;
        decoded.resolution = field.resolution;
        return;
    }
    reading.state = out_of_range(field, *quantity, meaning);
    if (field.index == 0) reading.limit = setting.range_limit;
    if (reading.limit && reading.state == State::under_range && field.negative)
        reading.limit = -*reading.limit;
}

Frame frame_of(const LineFields& line, const LineProtocol& protocol, const MeterSetting& setting) {
    Frame frame;
    frame.verdict = Verdict::reading;
    frame.unusual_digits = line.unusual_digits;
    // Decided on first: the numbers beside a bad status mean nothing.
    const Meaning status = take_status(line, protocol, frame.note);
    if (status == Meaning::no_data) frame.verdict = Verdict::not_live;
    if (status == Meaning::fault || (status == Meaning::ok && line.beyond_measure))
        frame.verdict = Verdict::senseless;
    if (frame.verdict != Verdict::reading) return frame;
    for (const FieldValue& field : line.values) {
        const Meaning meaning = status == Meaning::ok ? field.meaning : status;
        add_reading(field, meaning, setting, frame.readings);
    }
    if (frame.readings.empty()) {
        frame.verdict = Verdict::senseless;
        for (const FieldValue& field : line.values)
            if (frame.note.empty()) frame.note = objection_to(field);
    }
    return frame;
}

Frame word_frame(const StandIn& word, const MeterSetting& setting) {
    LineFields line;
    line.values.emplace_back(0).meaning = word.meaning;
    Frame frame = frame_of(line, {}, setting);
    if (word.meaning == Meaning::no_data) frame.verdict = Verdict::not_live;
    frame.note = word.note;
    return frame;
}

/// How many fields the line has.
std::size_t field_count(std::string_view line, const LineProtocol& protocol) {
    std::size_t count = 0;
    FieldsInTurn turn(line, protocol.separator);
    while (turn.next())
        ++count;
    return count;
}

bool can_have(const LineLayout& layout, std::size_t fields) {
    const bool repeats = layout.back().kind == LineField::Kind::values;
    return fields >= fewest_fields(layout) && (fields <= layout.size() || repeats);
}

/// True where every layout has more fields than the line.
bool is_cut(std::string_view line, const LineProtocol& protocol) {
    const std::size_t count = field_count(line, protocol);
    return std::ranges::all_of(protocol.layouts,
                               [&](const LineLayout& layout) { return count < fewest_fields(layout); });
}

} // namespace

Frame judge_line(std::string_view line, const LineProtocol& protocol, const MeterSetting& setting) {
    line = trimmed(line);
    if (line.empty() || is_aside(line, protocol)) return {.verdict = Verdict::aside};
    if (const StandIn* word = stand_in_named(line, protocol.words)) return word_frame(*word, setting);
    // A line with as many fields as no layout has needs no closer look; a single layout looks for itself.
    const bool chooses = protocol.layouts.size() > 1;
    const std::size_t count = chooses ? field_count(line, protocol) : 0;
    for (const LineLayout& layout : protocol.layouts)
        if (LineFields fields;
            (!chooses || can_have(layout, count)) && fits_layout(line, layout, protocol, setting, fields))
            return frame_of(fields, protocol, setting);
    return {.verdict = is_cut(line, protocol) ? Verdict::too_short : Verdict::bad_structure};
}

Scan scan_line(std::string_view buffer, const LineProtocol& protocol, const MeterSetting& setting,
               bool at_boundary) {
    if (buffer.empty()) return {};
    if (ends_line(buffer.front())) return {.used = 1, .frame = {.verdict = Verdict::aside}};
    const auto end = std::ranges::find_if(buffer, ends_line);
    const auto length = static_cast<std::size_t>(end - buffer.begin());
    if (length > protocol.longest)
        return {.used = protocol.longest + 1,
                .frame = {.verdict = at_boundary ? Verdict::bad_structure : Verdict::no_start}};
    if (end == buffer.end()) return {};
    if (!at_boundary) return {.used = length, .frame = {.verdict = Verdict::no_start}};
    return {.used = length, .frame = judge_line(buffer.substr(0, length), protocol, setting)};
}

} // namespace coilward
