#include "history/reading_rows.h"

#include "history/row_lookup.h"
#include "history/sql_values.h"

#include <cmath>

#include <SQLiteCpp/Database.h>
#include <fmt/format.h>

namespace coilward {
namespace {

/// SQLite would turn a number that is not finite into no number at all, or keep one that no meter ever read.
void require_finite(const std::filesystem::path& file, const Reading& reading) {
    for (const auto& number :
         {reading.frequency_hz, reading.value, reading.standard_uncertainty, reading.limit, reading.spread})
        if (number && !std::isfinite(*number))
            throw HistoryError(
                fmt::format("{}: a reading of {} with the number {} cannot be kept; readings are finite "
                            "numbers or states",
                            file.string(), name(reading.quantity), *number));
}

std::int64_t meter_row(const SQLite::Database& database, const std::string& driver, const std::string& port) {
    SQLite::Statement row(database, "SELECT meter_id FROM meters WHERE driver = ? AND port = ?");
    row.bind(1, driver);
    row.bind(2, port);
    if (row.executeStep()) return row.getColumn(0).getInt64();
    SQLite::Statement insert(database, "INSERT INTO meters (driver, port) VALUES (?, ?)");
    insert.bind(1, driver);
    insert.bind(2, port);
    insert.exec();
    return database.getLastInsertRowid();
}

/// The row of the reading to be corrected: of the same visit, and the last of its line of corrections.
std::int64_t corrected_row(const SQLite::Database& database, const std::filesystem::path& file,
                           std::int64_t visit, const Id& corrected) {
    SQLite::Statement row(database, R"sql(
        SELECT reading_id, (SELECT later.uid FROM readings AS later WHERE later.corrects = r.reading_id)
        FROM readings AS r WHERE visit_id = ? AND uid = ?)sql");
    row.bind(1, visit);
    bind_id(row, 2, corrected);
    if (!row.executeStep())
        throw HistoryError(
            fmt::format("{}: there is no reading {} in this visit to correct; a correction belongs to "
                        "the visit of what it corrects",
                        file.string(), text_of(corrected)));
    if (const auto later = row.getColumn(1); !later.isNull())
        throw HistoryError(fmt::format("{}: the reading {} is corrected already, by {}; correct that one",
                                       file.string(), text_of(corrected), text_of(id_in(later))));
    return row.getColumn(0).getInt64();
}

template <typename Kind>
std::optional<std::int64_t> code(const ReadingWords& words, std::string_view column,
                                 const std::optional<Kind>& kind) {
    if (!kind) return std::nullopt;
    return words.code(column, name(*kind));
}

constexpr auto insert_reading = R"sql(
    INSERT INTO readings (uid, visit_id, at_ms, meter_id, coil, quantity, "between", circuit, state, polarity, frequency,
                          value, standard_uncertainty, range_limit, spread, corrects, remark, raw)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?))sql";

constexpr auto readings_of_visit = R"sql(
    SELECT r.uid, r.at_ms, driver, port, coil, quantity, "between", circuit, state, polarity, frequency,
           value, standard_uncertainty, range_limit, spread,
           (SELECT former.uid FROM readings AS former WHERE former.reading_id = r.corrects), remark, raw
    FROM readings AS r JOIN meters USING (meter_id)
    WHERE visit_id = ? ORDER BY r.at_ms, reading_id)sql";

/// A row of readings_of_visit as values.
struct ReadingRow {
    const SQLite::Statement& row;
    const ReadingWords& words;
    const std::filesystem::path& file;

    template <typename Kind>
    Kind kind(int place, const char* column, std::optional<Kind> (*named)(std::string_view)) const {
        const auto code = row.getColumn(place).getInt64();
        if (const auto found = named(words.word(column, code))) return *found;
        throw HistoryError(
            fmt::format("{}: the {} of the reading {} has the unknown code {}; the file is damaged: use "
                        "the latest good copy",
                        file.string(), column, text_of(id_in(row.getColumn(0))), code));
    }

    template <typename Kind>
    std::optional<Kind> optional_kind(int place, const char* column,
                                      std::optional<Kind> (*named)(std::string_view)) const {
        if (row.isColumnNull(place)) return std::nullopt;
        return kind(place, column, named);
    }

    Reading reading() const {
        return {.quantity = kind(5, "quantity", quantity_named),
                .between = kind(6, "between", between_named),
                .circuit = optional_kind(7, "circuit", circuit_named),
                .frequency_hz = number_in(row.getColumn(10)),
                .state = kind(8, "state", state_named),
                .value = number_in(row.getColumn(11)),
                .standard_uncertainty = number_in(row.getColumn(12)),
                .limit = number_in(row.getColumn(13)),
                .spread = number_in(row.getColumn(14)),
                .polarity = optional_kind(9, "polarity", polarity_named),
                .coil = row.getColumn(4).getString()};
    }

    StoredReading stored(const Id& visit) const {
        StoredReading stored{.id = id_in(row.getColumn(0)),
                             .visit = visit,
                             .at = moment_in(row.getColumn(1)),
                             .meter = row.getColumn(2).getString(),
                             .port = row.getColumn(3).getString(),
                             .reading = reading(),
                             .raw = row.getColumn(17).getString(),
                             .corrects = std::nullopt,
                             .remark = row.getColumn(16).getString()};
        if (const auto corrects = row.getColumn(15); !corrects.isNull()) stored.corrects = id_in(corrects);
        return stored;
    }
};

} // namespace

ReadingInsertion::ReadingInsertion(const SQLite::Database& database, const ReadingWords& words,
                                   const std::filesystem::path& file)
    : database_(database), words_(words), file_(file), statement_(database, insert_reading) {}

void ReadingInsertion::insert(const StoredReading& stored) {
    require_id(file_, "reading", stored.id);
    require_finite(file_, stored.reading);
    const auto visit = visit_row(database_, file_, stored.visit);
    bind_id(statement_, 1, stored.id);
    statement_.bind(2, visit);
    statement_.bind(3, milliseconds_of(stored.at));
    statement_.bind(4, meter_row(database_, stored.meter, stored.port));
    bind_reading(stored.reading);
    if (stored.corrects)
        statement_.bind(16, corrected_row(database_, file_, visit, *stored.corrects));
    else
        statement_.bind(16);
    statement_.bind(17, stored.remark);
    statement_.bind(18, stored.raw.data(), static_cast<int>(stored.raw.size()));
    statement_.exec();
    statement_.reset();
}

void ReadingInsertion::bind_reading(const Reading& reading) {
    statement_.bind(5, reading.coil);
    statement_.bind(6, words_.code("quantity", name(reading.quantity)));
    statement_.bind(7, words_.code("between", name(reading.between)));
    bind_optional(statement_, 8, code(words_, "circuit", reading.circuit));
    statement_.bind(9, words_.code("state", name(reading.state)));
    bind_optional(statement_, 10, code(words_, "polarity", reading.polarity));
    bind_optional(statement_, 11, reading.frequency_hz);
    bind_optional(statement_, 12, reading.value);
    bind_optional(statement_, 13, reading.standard_uncertainty);
    bind_optional(statement_, 14, reading.limit);
    bind_optional(statement_, 15, reading.spread);
}

std::vector<StoredReading> select_readings(const SQLite::Database& database, const ReadingWords& words,
                                           const std::filesystem::path& file, const Id& visit) {
    SQLite::Statement rows(database, readings_of_visit);
    rows.bind(1, visit_row(database, file, visit));
    std::vector<StoredReading> readings;
    while (rows.executeStep())
        readings.push_back(ReadingRow{rows, words, file}.stored(visit));
    return readings;
}

} // namespace coilward
