#include "history/csv.h"
#include "history/hexadecimal.h"
#include "history/history_import.h"
#include "history/pickup_key.h"
#include "reading/examination_json.h"
#include "reading/reading_json.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

/// The columns that are known. What a reading is by itself has the names of the readings document.
constexpr std::array<std::string_view, 28> columns{"pickup_id",  "pickup",
                                                   "name",       "owner",
                                                   "visit_id",   "visit_at",
                                                   "stage",      "rewound",
                                                   "reading_id", "at",
                                                   "meter",      "port",
                                                   "coil",       "quantity",
                                                   "between",    "circuit",
                                                   "frequency",  "state",
                                                   "polarity",   "value",
                                                   "unit",       "standard_uncertainty",
                                                   "limit",      "spread",
                                                   "corrects",   "remark",
                                                   "raw",        "handling"};

/// One record by the names of its columns.
class Row {
public:
    /// The places of the columns, from the header. Throws BadDocument.
    explicit Row(const CsvRecord& header) : count_(header.fields.size()) {
        places_.fill(count_);
        for (std::size_t place = 0; place < count_; ++place) {
            const auto* column = std::ranges::find(columns, header.fields[place]);
            if (column == columns.end())
                throw BadDocument(fmt::format("line 1: found the column {}, expected one of {}",
                                              in_quotes(header.fields[place]), fmt::join(columns, ", ")));
            auto& own = places_[static_cast<std::size_t>(column - columns.begin())];
            if (own != count_)
                throw BadDocument(fmt::format("line 1: the column {} is there twice; keep one", *column));
            own = place;
        }
    }

    void read(const CsvRecord& record) {
        record_ = &record;
        if (record.fields.size() != count_)
            throw BadDocument(fmt::format("line {}: found {} fields, expected {} as in the header",
                                          record.line, record.fields.size(), count_));
    }

    /// Empty where there is no such column.
    const std::string& operator[](std::string_view column) const {
        const auto place =
            places_[static_cast<std::size_t>(std::ranges::find(columns, column) - columns.begin())];
        return place < count_ ? record_->fields[place] : nothing_;
    }

    [[noreturn]] void refuse(std::string_view column, std::string_view expected) const {
        const std::string& found = (*this)[column];
        throw BadDocument(fmt::format("line {}, {}: found {}, expected {}", record_->line, column,
                                      found.empty() ? "nothing" : in_quotes(found), expected));
    }

    std::string place() const { return fmt::format("line {}", record_->line); }

    /// All that the record says, with the columns' names.
    std::string whole() const {
        std::string text;
        for (const std::string_view column : columns)
            if (const std::string& field = (*this)[column]; !field.empty())
                text += fmt::format("{}={}\n", column, field);
        return text;
    }

private:
    std::size_t count_;
    std::array<std::size_t, columns.size()> places_{}; ///< count_ for a column that is not there
    const CsvRecord* record_ = nullptr;
    std::string nothing_;
};

std::optional<Id> id_in_column(const Row& row, std::string_view column) {
    if (row[column].empty()) return std::nullopt;
    const auto id = id_from_text(row[column]);
    if (!id) row.refuse(column, "an id such as 0f8fad5b-d9cb-469f-a165-70867728950e");
    return id;
}

/// The time in the first of the columns that has one.
Moment moment_in_columns(const Row& row, std::string_view column, std::string_view other) {
    const auto told = row[column].empty() ? other : column;
    const auto moment = moment_from_text(row[told]);
    if (!moment) row.refuse(row[told].empty() ? column : told, "a time such as 2026-03-02T10:00:00Z");
    return *moment;
}

void put_number(const Row& row, const char* column, nlohmann::json& form) {
    const std::string& text = row[column];
    if (text.empty()) return;
    double number = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size())
        row.refuse(column, "a number with a decimal point and without a unit, such as 6112 or 4.6e-11");
    form[column] = number;
}

/// By way of the readings document, whose checks are the same.
Reading reading_in(const Row& row) {
    nlohmann::json form = nlohmann::json::object();
    for (const char* column : {"quantity", "between", "circuit", "state", "unit", "coil", "handling"})
        if (!row[column].empty()) form[column] = row[column];
    for (const char* column : {"frequency", "value", "standard_uncertainty", "limit", "spread"})
        put_number(row, column, form);
    if (!row["polarity"].empty()) form["value"] = row["polarity"];
    return reading_at({&form, row.place()}, {});
}

/// Gathers rows into pickups and their visits.
class Table {
public:
    explicit Table(const History& known) : known_(known) {}

    void add(const Row& row) {
        WholePickup& pickup = pickup_of(row);
        WholeVisit& visit = visit_of(row, pickup);
        StoredReading stored{.id = {},
                             .visit = visit.visit.id,
                             .at = moment_in_columns(row, "at", "visit_at"),
                             .meter = row["meter"],
                             .port = row["port"],
                             .reading = reading_in(row),
                             .raw = raw_in(row),
                             .corrects = id_in_column(row, "corrects"),
                             .remark = row["remark"]};
        stored.id = reading_id(row, stored.visit);
        visit.readings.push_back(std::move(stored));
    }

    std::vector<WholePickup> pickups() && {
        std::vector<WholePickup> all;
        for (auto& [id, pickup] : pickups_) {
            if (pickup.values.empty()) pickup.values = values_of(pickup.pickup);
            all.push_back(std::move(pickup));
        }
        return all;
    }

private:
    Id pickup_id(const Row& row) {
        if (const auto id = id_in_column(row, "pickup_id")) return *id;
        const std::string slug = slug_of(row["name"]);
        if (slug.empty()) row.refuse("name", "a pickup's name, or its id in the column pickup_id");
        if (const auto named = by_slug_.find(slug); named != by_slug_.end()) return named->second;
        Id id = id_for("pickup\n" + slug);
        auto found = known_.pickups_with_slug(slug);
        std::erase_if(found, [&](const Pickup& pickup) { return slug_of(pickup.name) != slug; });
        if (found.size() > 1) row.refuse("name", "a name that one pickup alone has; say its id in pickup_id");
        if (!found.empty()) id = found.front().id;
        return by_slug_.emplace(slug, id).first->second;
    }

    WholePickup& pickup_of(const Row& row) {
        const Id id = pickup_id(row);
        const auto found = pickups_.find(id);
        if (found != pickups_.end()) return found->second;
        WholePickup& pickup = pickups_[id];
        if (const auto known = known_.pickup(id)) {
            pickup.pickup = *known;
            pickup.values = known_.values_of(id);
            return pickup;
        }
        if (slug_of(row["name"]).empty()) row.refuse("name", "the name of a pickup that is new here");
        pickup.pickup = {.id = id,
                         .number = 0,
                         .added_at = moment_in_columns(row, "visit_at", "at"),
                         .name = row["name"],
                         .owner = row["owner"]};
        return pickup;
    }

    WholeVisit& visit_of(const Row& row, WholePickup& pickup) {
        const Moment at = moment_in_columns(row, "visit_at", "at");
        const auto told = id_in_column(row, "visit_id");
        const Id id = told ? *told
                           : id_for(fmt::format("visit\n{}\n{}\n{}", text_of(pickup.pickup.id), text_of(at),
                                                row["stage"]));
        const auto [found, fresh] = visits_.try_emplace({pickup.pickup.id, id}, pickup.visits.size());
        if (fresh)
            pickup.visits.push_back({.visit = {.id = id,
                                               .pickup = pickup.pickup.id,
                                               .at = at,
                                               .stage = row["stage"],
                                               .rewound = rewound_in(row)}});
        return pickup.visits[found->second];
    }

    static bool rewound_in(const Row& row) {
        const std::string& word = row["rewound"];
        if (!word.empty() && word != "0" && word != "1") row.refuse("rewound", "0 or 1");
        return word == "1";
    }

    static std::string raw_in(const Row& row) {
        const auto bytes = from_hexadecimal(row["raw"]);
        if (!bytes) row.refuse("raw", "bytes in hexadecimal, two digits each");
        return *bytes;
    }

    /// Rows that say the same are readings of their own.
    Id reading_id(const Row& row, const Id& visit) {
        if (const auto id = id_in_column(row, "reading_id")) return *id;
        const auto text = fmt::format("reading\n{}\n{}", text_of(visit), row.whole());
        return id_for(fmt::format("{}{}", text, ++repeats_[id_for(text)]));
    }

    const History& known_;
    std::map<Id, WholePickup> pickups_;
    std::map<std::string, Id> by_slug_;
    std::map<std::pair<Id, Id>, std::size_t>
        visits_; ///< of a pickup and a visit: its place among the pickup's
    std::map<Id, int> repeats_;
};

} // namespace

std::vector<WholePickup> whole_pickups_from_csv(std::string_view text, const History& known) {
    if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3); // as spreadsheets begin their files
    CsvReader reader(text);
    CsvRecord record;
    if (!reader.next(record))
        throw BadDocument("line 1: found nothing, expected a header with the columns' names");
    Row row(record);
    Table table(known);
    while (reader.next(record)) {
        row.read(record);
        table.add(row);
    }
    return std::move(table).pickups();
}

} // namespace coilward
