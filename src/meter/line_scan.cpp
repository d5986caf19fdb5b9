#include "meter/line_scan.h"

#include "meter/line_fields.h"
#include "meter/named_reading.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {
namespace {

bool holds(const std::vector<std::string>& lines, std::string_view line) {
    return std::ranges::find(lines, line) != lines.end();
}

/// What the status field says; a code that the driver does not list is a fault.
StatusCode status_of(const LineFields& line, const LineProtocol& protocol) {
    if (!line.status) return {};
    const auto known = std::ranges::find(protocol.status, *line.status, &StatusCode::code);
    if (known != protocol.status.end()) return *known;
    return {.code = *line.status,
            .meaning = Meaning::fault,
            .note = fmt::format("status {:+} is not one that this meter is known to send", *line.status)};
}

State out_of_range(const FieldValue& field, Quantity quantity, Meaning meaning) {
    // Only a voltage has a lower end that can be passed; a negative overload of a resistance is an overload.
    const bool below = field.negative && quantity == Quantity::dc_voltage;
    return below || meaning == Meaning::under_range ? State::under_range : State::over_range;
}

/// The reading of one field, or nothing where it holds none: no quantity is set for it, or it is "not a
/// number".
std::optional<DecodedReading> reading_of(const FieldValue& field, Meaning meaning,
                                         const MeterSetting& setting) {
    auto quantity = field.named.quantity;
    if (!quantity && field.index < setting.quantities.size()) quantity = setting.quantities[field.index];
    if (!quantity || meaning == Meaning::no_data || meaning == Meaning::fault) return std::nullopt;
    DecodedReading decoded{.reading = named_reading(*quantity, setting)};
    if (field.named.circuit && has_circuit(*quantity)) decoded.reading.circuit = field.named.circuit;
    if (meaning == Meaning::ok) {
        decoded.reading.value = field.value;
        decoded.resolution = field.resolution;
        return decoded;
    }
    decoded.reading.state = out_of_range(field, *quantity, meaning);
    if (field.index == 0) decoded.reading.limit = setting.range_limit;
    if (decoded.reading.limit && decoded.reading.state == State::under_range && field.negative)
        decoded.reading.limit = -*decoded.reading.limit;
    return decoded;
}

Frame frame_of(const LineFields& line, const LineProtocol& protocol, const MeterSetting& setting) {
    const StatusCode status = status_of(line, protocol);
    Frame frame{.verdict = Verdict::reading, .readings = {}, .bytes = {}, .note = status.note};
    if (status.meaning == Meaning::no_data) frame.verdict = Verdict::not_live;
    if (status.meaning == Meaning::fault || (status.meaning == Meaning::ok && line.beyond_measure))
        frame.verdict = Verdict::senseless;
    if (frame.verdict != Verdict::reading) return frame;
    for (const FieldValue& field : line.values) {
        // The status is decided on first: the numbers beside a bad one mean nothing.
        const Meaning meaning = status.meaning == Meaning::ok ? field.meaning : status.meaning;
        if (auto decoded = reading_of(field, meaning, setting)) frame.readings.push_back(std::move(*decoded));
    }
    if (frame.readings.empty()) frame.verdict = Verdict::senseless;
    return frame;
}

Frame word_frame(Meaning meaning, const MeterSetting& setting) {
    LineFields line;
    line.values.push_back({.meaning = meaning});
    Frame frame = frame_of(line, {}, setting);
    if (meaning == Meaning::no_data) frame.verdict = Verdict::not_live;
    return frame;
}

} // namespace

bool ends_line(char character) {
    return character == '\r' || character == '\n';
}

Frame judge_line(std::string_view line, const LineProtocol& protocol, const MeterSetting& setting) {
    line = trimmed(line);
    if (line.empty() || holds(protocol.asides, line)) return {.verdict = Verdict::aside};
    if (const auto word = protocol.words.find(std::string(line)); word != protocol.words.end())
        return word_frame(word->second, setting);
    const auto fields = split(line, protocol.separator);
    for (const LineLayout& layout : protocol.layouts)
        if (const auto found = fields_by_layout(fields, layout, protocol))
            return frame_of(*found, protocol, setting);
    const bool cut = std::ranges::all_of(
        protocol.layouts, [&](const LineLayout& layout) { return fields.size() < fewest_fields(layout); });
    return {.verdict = cut ? Verdict::too_short : Verdict::bad_structure};
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
