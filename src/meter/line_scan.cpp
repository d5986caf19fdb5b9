#include "meter/line_scan.h"

#include "meter/line_fields.h"
#include "meter/line_names.h"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <cstring>
#include <span>

#include <fmt/format.h>

namespace coilward {
namespace {

bool is_aside(std::string_view line, const LineProtocol& protocol) {
    for (const std::string& aside : protocol.asides.like(line))
        if (is_like(line, aside)) return true;
    return false;
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

/// Fills the frame with what the fields say.
void take_fields(const LineFields& line, const LineProtocol& protocol, const MeterSetting& setting,
                 Frame& frame) {
    frame.verdict = Verdict::reading;
    frame.unusual_digits = line.unusual_digits;
    // Decided on first: the numbers beside a bad status mean nothing.
    const Meaning status = take_status(line, protocol, frame.note);
    if (status == Meaning::no_data) frame.verdict = Verdict::not_live;
    if (status == Meaning::fault || (status == Meaning::ok && line.beyond_measure))
        frame.verdict = Verdict::senseless;
    if (frame.verdict != Verdict::reading) return;
    for (const FieldValue& field : line.values) {
        const Meaning meaning = status == Meaning::ok ? field.meaning : status;
        add_reading(field, meaning, setting, frame.readings);
    }
    if (frame.readings.empty()) {
        frame.verdict = Verdict::senseless;
        for (const FieldValue& field : line.values)
            if (frame.note.empty()) frame.note = objection_to(field);
    }
}

void take_word(const StandIn& word, const LineProtocol& protocol, const MeterSetting& setting, Frame& frame) {
    LineFields line;
    line.values.emplace_back(0).meaning = word.meaning;
    take_fields(line, protocol, setting, frame);
    if (word.meaning == Meaning::no_data) frame.verdict = Verdict::not_live;
    frame.note = word.note;
}

/// What to say of a line that fits no layout: cut where every layout has more fields.
Verdict verdict_on_misfit(std::size_t fields, const LineProtocol& protocol) {
    const bool is_cut = std::ranges::all_of(
        protocol.layouts, [&](const LineLayout& layout) { return fields < fewest_fields(layout); });
    return is_cut ? Verdict::too_short : Verdict::bad_structure;
}

/// Of eight characters, how many stand before the first that is no later in the alphabet than '\r', as hardly
/// any character of a line is; 8 where none is there. It may also stop at one that only stands beside such a
/// character.
std::size_t length_before_control(const char* characters) {
    constexpr std::uint64_t ones = 0x0101'0101'0101'0101U;
    std::uint64_t eight = 0;
    std::memcpy(&eight, characters, sizeof eight);
    const std::uint64_t low = (eight - ones * ('\r' + 1)) & ~eight & (ones * 0x80U);
    const int zeros =
        std::endian::native == std::endian::little ? std::countr_zero(low) : std::countl_zero(low);
    return static_cast<std::size_t>(zeros) / 8;
}

/// Where the first character stands that ends a line; the size of the text where there is none.
std::size_t line_end_in(std::string_view text) {
    std::size_t at = 0;
    while (at + 8 <= text.size()) {
        const std::size_t before = length_before_control(text.data() + at);
        at += before;
        if (before == 8) continue;
        if (ends_line(text[at])) return at;
        ++at;
    }
    while (at < text.size() && !ends_line(text[at]))
        ++at;
    return at;
}

} // namespace

void judge_line(std::string_view line, const LineProtocol& protocol, const MeterSetting& setting,
                LineRoom& room, Frame& frame) {
    line = trimmed(line);
    frame.verdict = Verdict::aside;
    if (line.empty() || is_aside(line, protocol)) return;
    if (const StandIn* word = stand_in_named(line, protocol.words))
        return take_word(*word, protocol, setting, frame);
    std::span<const std::string_view> texts(&line, 1);
    if (!protocol.separator.empty()) {
        room.texts.clear();
        split_into(room.texts, line, protocol.separator);
        texts = room.texts;
    }
    for (const LineLayout& layout : protocol.layouts) {
        clear(room.fields);
        if (fits_layout(texts, layout, protocol, setting, room.fields))
            return take_fields(room.fields, protocol, setting, frame);
    }
    frame.verdict = verdict_on_misfit(texts.size(), protocol);
}

std::size_t scan_line(std::string_view buffer, const LineProtocol& protocol, const MeterSetting& setting,
                      bool at_boundary, LineRoom& room, Frame& frame) {
    frame.verdict = Verdict::aside;
    if (buffer.empty()) return 0;
    if (ends_line(buffer.front())) return 1;
    const std::size_t length = line_end_in(buffer.substr(0, protocol.longest + 1));
    if (length == buffer.size() && length <= protocol.longest) return 0;
    frame.verdict = Verdict::no_start;
    if (!at_boundary) return length;
    if (length > protocol.longest)
        frame.verdict = Verdict::bad_structure;
    else
        judge_line(buffer.substr(0, length), protocol, setting, room, frame);
    return length;
}

} // namespace coilward
