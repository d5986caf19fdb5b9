#include "rules/bench_file.h"

#include "toml/table_reader.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {
namespace {

/// Keys that only some quantities have; the others refuse them as unknown.
void read_meter(TableReader& table, BenchReading& reading) {
    if (is_polarity(reading.quantity)) return;
    if (reading.quantity != Quantity::temperature)
        reading.between =
            table.vocabulary_word<Between>("between", Need::optional, between_named).value_or(Between::leads);
    if (needs_frequency(reading.quantity))
        reading.frequency_hz = table.number("frequency", Need::required, measures::test_frequency);
    const auto relative =
        table.number("relative_uncertainty", Need::required, measures::relative_uncertainty);
    const auto absolute =
        table.number("absolute_uncertainty", Need::required, measures::absolute_uncertainty);
    reading.relative_uncertainty = relative.value_or(0.0);
    reading.absolute_uncertainty = absolute.value_or(0.0);
    if (relative && absolute && *relative + *absolute <= 0.0)
        table.complain(
            ComplaintKind::not_positive, "relative_uncertainty",
            "found 0 here and in absolute_uncertainty, expected one of them above 0: no meter is exact");
    reading.range_limit = table.number("range_limit", Need::optional, measures::range_limit);
}

bool same_question(const BenchReading& a, const BenchReading& b) {
    return a.quantity == b.quantity && a.between == b.between && a.frequency_hz == b.frequency_hz &&
           a.handling == b.handling;
}

/// Warmed and pressed coils are judged by their DC resistance; lifting the controls off shows in everything
/// across the leads.
void require_judgeable(TableReader& table, const BenchReading& reading) {
    const bool by_copper = reading.handling != Handling::lifted;
    if (reading.between == Between::leads && (!by_copper || reading.quantity == Quantity::dc_resistance))
        return;
    table.complain(ComplaintKind::unknown_word, "handling",
                   by_copper ? "found it with another reading, expected dc_resistance between the leads"
                             : "found it with other points, expected a reading between the leads");
}

std::optional<BenchReading> read_bench_reading(TableReader& table, bool is_handled) {
    BenchReading reading;
    if (is_handled)
        reading.handling = table.vocabulary_word<Handling>("handling", Need::required, handling_named);
    const auto quantity = table.vocabulary_word<Quantity>("quantity", Need::required, quantity_named);
    if (!quantity) return std::nullopt;
    reading.quantity = *quantity;
    read_meter(table, reading);
    reading.seconds = table.number("seconds", Need::required, measures::seconds).value_or(0.0);
    reading.how = table.text("how", Need::required).value_or("");
    if (reading.handling) require_judgeable(table, reading);
    table.refuse_unknown_keys();
    return reading;
}

std::vector<BenchReading> read_rows(std::vector<TableReader> tables, bool are_handled,
                                    const std::vector<Complaint>& complaints) {
    std::vector<BenchReading> readings;
    for (TableReader& table : tables) {
        const std::size_t before = complaints.size();
        const auto reading = read_bench_reading(table, are_handled);
        const auto same = [&](const BenchReading& other) { return same_question(*reading, other); };
        if (reading && std::ranges::any_of(readings, same))
            table.complain(ComplaintKind::said_twice, "quantity",
                           "found the same quantity, points and frequency as in an earlier reading, expected "
                           "each once");
        if (complaints.size() == before) readings.push_back(*reading);
    }
    return readings;
}

} // namespace

BenchFile read_bench_file(const TomlSource& source, std::vector<Complaint>& complaints) {
    TableReader reader(source, complaints);
    BenchFile file{.readings = read_rows(reader.tables("reading", Need::required), false, complaints),
                   .handled = read_rows(reader.tables("handled", Need::optional), true, complaints)};
    reader.refuse_unknown_keys();
    return file;
}

} // namespace coilward
