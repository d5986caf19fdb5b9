#include "history/reading_rows.h"

#include "history/row_lookup.h"

#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

/// SQLite would turn a number that is not finite into no number at all, or keep one that no meter ever read.
void require_finite(const Database& database, const Reading& reading) {
    for (const auto& number :
         {reading.frequency_hz, reading.value, reading.standard_uncertainty, reading.limit, reading.spread})
        if (number && !std::isfinite(*number))
            throw HistoryError(
                fmt::format("{}: a reading of {} with the number {} cannot be kept; readings are finite "
                            "numbers or states",
                            database.place(), name(reading.quantity), *number));
}

constexpr auto insert_reading = R"sql(
    INSERT INTO readings (uid, visit_id, at_ms, meter_id, coil, quantity, "between", circuit, state, polarity, frequency,
                          value, standard_uncertainty, range_limit, spread, corrects, remark, raw, handling)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19))sql";

// What was taken in one millisecond has no order of its own; the ids give it the same one on every bench.
constexpr auto readings_of_visit = R"sql(
    SELECT r.uid, r.at_ms, driver, port, coil, quantity, "between", circuit, state, polarity, frequency,
           value, standard_uncertainty, range_limit, spread,
           (SELECT former.uid FROM readings AS former WHERE former.reading_id = r.corrects), remark, raw, handling
    FROM readings AS r JOIN meters USING (meter_id)
    WHERE visit_id = $1 ORDER BY r.at_ms, quantity, r.uid)sql";

/// A row of readings_of_visit as values.
struct ReadingRow {
    const SqlRow& row;
    const ReadingWords& words;
    const std::string& place;

    template <typename Kind>
    Kind kind(std::size_t at, const char* column, std::optional<Kind> (*named)(std::string_view)) const {
        const auto code = whole_in(row[at]);
        if (const auto found = named(words.word(column, code))) return *found;
        throw HistoryError(
            fmt::format("{}: the {} of the reading {} has the unknown code {}; the file is damaged: use "
                        "the latest good copy",
                        place, column, text_of(id_in(row[0])), code));
    }

    template <typename Kind>
    std::optional<Kind> optional_kind(std::size_t at, const char* column,
                                      std::optional<Kind> (*named)(std::string_view)) const {
        if (is_null(row[at])) return std::nullopt;
        return kind(at, column, named);
    }

    Reading reading() const {
        return {.quantity = kind(5, "quantity", quantity_named),
                .between = kind(6, "between", between_named),
                .circuit = optional_kind(7, "circuit", circuit_named),
                .frequency_hz = number_in(row[10]),
                .state = kind(8, "state", state_named),
                .value = number_in(row[11]),
                .standard_uncertainty = number_in(row[12]),
                .limit = number_in(row[13]),
                .spread = number_in(row[14]),
                .polarity = optional_kind(9, "polarity", polarity_named),
                .coil = text_in(row[4]),
                .handling = optional_kind(18, "handling", handling_named)};
    }

    StoredReading stored(const Id& visit) const {
        return {.id = id_in(row[0]),
                .visit = visit,
                .at = moment_in(row[1]),
                .meter = text_in(row[2]),
                .port = text_in(row[3]),
                .reading = reading(),
                .raw = bytes_in(row[17]),
                .corrects = is_null(row[15]) ? std::nullopt : std::optional(id_in(row[15])),
                .remark = text_in(row[16])};
    }
};

} // namespace

ReadingInsertion::ReadingInsertion(Database& database, const ReadingWords& words, SecondCorrection second)
    : database_(database), words_(words), second_correction_(second) {}

std::int64_t ReadingInsertion::visit_row_of(const Id& id) {
    const auto known = visits_.find(id);
    return known != visits_.end() ? known->second
                                  : visits_.emplace(id, visit_row(database_, id)).first->second;
}

std::int64_t ReadingInsertion::meter_row_of(const std::string& driver, const std::string& port) {
    const auto [known, unknown] = meters_.try_emplace({driver, port}, 0);
    if (!unknown) return known->second;
    auto rows = database_.run("SELECT meter_id FROM meters WHERE driver = $1 AND port = $2", {driver, port});
    if (rows.empty())
        rows = database_.run("INSERT INTO meters (driver, port) VALUES ($1, $2) RETURNING meter_id",
                             {driver, port});
    return known->second = whole_in(rows.front()[0]);
}

/// The row of the reading to be corrected: of the same visit, and the last of its line of corrections.
SqlValue ReadingInsertion::corrected_row(std::int64_t visit, const StoredReading& correction) {
    if (!correction.corrects) return {};
    const auto rows = database_.run(R"sql(
        SELECT reading_id, (SELECT later.uid FROM readings AS later WHERE later.corrects = r.reading_id
                            ORDER BY later.uid LIMIT 1)
        FROM readings AS r WHERE visit_id = $1 AND uid = $2)sql",
                                    {visit, sql_of(*correction.corrects)});
    if (rows.empty())
        throw HistoryError(
            fmt::format("{}: there is no reading {} in this visit to correct; a correction belongs to "
                        "the visit of what it corrects",
                        database_.place(), text_of(*correction.corrects)));
    if (const auto& later = rows.front()[1];
        !is_null(later) && second_correction_ == SecondCorrection::refused)
        throw HistoryError(fmt::format("{}: the reading {} is corrected already, by {}; correct that one",
                                       database_.place(), text_of(*correction.corrects),
                                       text_of(id_in(later))));
    return rows.front()[0];
}

template <typename Kind>
SqlValue ReadingInsertion::code(std::string_view column, const std::optional<Kind>& kind) const {
    if (!kind) return {};
    return words_.code(column, name(*kind));
}

void ReadingInsertion::insert(const StoredReading& stored) {
    require_id(database_, "reading", stored.id);
    require_finite(database_, stored.reading);
    const auto visit = visit_row_of(stored.visit);
    const Reading& reading = stored.reading;
    database_.run(insert_reading,
                  {sql_of(stored.id), visit, sql_of(stored.at), meter_row_of(stored.meter, stored.port),
                   reading.coil, words_.code("quantity", name(reading.quantity)),
                   words_.code("between", name(reading.between)), code("circuit", reading.circuit),
                   words_.code("state", name(reading.state)), code("polarity", reading.polarity),
                   sql_of(reading.frequency_hz), sql_of(reading.value), sql_of(reading.standard_uncertainty),
                   sql_of(reading.limit), sql_of(reading.spread), corrected_row(visit, stored), stored.remark,
                   Blob{stored.raw}, code("handling", reading.handling)});
}

std::vector<StoredReading> select_readings(Database& database, const ReadingWords& words, const Id& visit) {
    std::vector<StoredReading> readings;
    for (const SqlRow& row : database.run(readings_of_visit, {visit_row(database, visit)}))
        readings.push_back(ReadingRow{row, words, database.place()}.stored(visit));
    return readings;
}

} // namespace coilward
