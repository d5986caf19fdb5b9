#include "any_store.h"
#include "every_kind_of_reading.h"
#include "examples.h"
#include "history/csv.h"
#include "history/history_export.h"
#include "history/history_import.h"
#include "reading/examination_json.h"
#include "refusal.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using testing::refusal;
using testing::Store;

struct Import : testing::AnyStore {
    History history{store.address()};
};

/// A pickup with everything that a history can hold of one.
void fill(History& history) {
    auto pickup = testing::bridge();
    pickup.notes = "two lines,\r\n\"quoted\"";
    pickup = history.add_pickup(pickup);
    history.add_pickup(testing::neck());
    auto visit = testing::visit_of(pickup, 10, "2026-03-02T10:00:00Z");
    visit.rewound = true;
    visit.notes = "finish lead loose";
    history.begin_visit(visit);
    unsigned n = 100;
    for (Reading reading : testing::every_kind_of_reading()) {
        if (reading.standard_uncertainty && !(*reading.standard_uncertainty > 0.0))
            reading.standard_uncertainty = 1.0;
        // What a readings document refuses: numbers that no meter gives of the quantity, and no frequency
        // where one is due.
        if (is_polarity(reading.quantity))
            reading = {.quantity = reading.quantity, .polarity = Polarity::none};
        if (reading.value && *reading.value <= 0.0) reading.value = 1.0;
        if (!reading.frequency_hz || !(*reading.frequency_hz > 0.0)) reading.frequency_hz = 1000.0;
        if (reading.spread && *reading.spread < 0.0) reading.spread = 1.0;
        auto stored = testing::stored(visit, n++, reading);
        stored.meter = "bench-lcr";
        stored.port = "/dev/ttyUSB0";
        stored.raw = std::string("\x00\xff\r\n", 4);
        history.append_reading(stored);
    }
    auto correction = testing::stored(visit, n++, testing::dc_resistance(6121.0));
    correction.corrects = testing::id(100);
    correction.remark = "misread, \"by hand\"";
    history.append_reading(correction);
    history.store_verdict(testing::verdict(visit, 30, "slug", false));
    pickup.owner = "B. Nonymous";
    pickup.coils = {{"slug", "six-slug-43"}, {"screw", "six-screw-42"}};
    history.edit_pickup(pickup, testing::id(70), testing::at("2027-01-15T14:00:00Z"));
    history.attach(testing::label_of(pickup, visit.at), testing::label);
}

TEST_P(Import, OfAnExportBringsEverythingAndAgainNothing) {
    const Store other(testing::Kind::sqlite);
    History source(other.address());
    fill(source);
    const auto exported = everything_to_json(source);
    const auto adopted = import(history, whole_pickups_from_json(exported));
    EXPECT_EQ(adopted.pickups, 2U);
    EXPECT_EQ(adopted.attachments, 1U);
    EXPECT_THAT(adopted.conflicts, IsEmpty());
    EXPECT_EQ(everything_to_json(history), exported);
    EXPECT_EQ(history.changes_of(testing::id(1)), source.changes_of(testing::id(1)));
    const auto again = import(history, whole_pickups_from_json(exported));
    EXPECT_EQ(again.pickups + again.values + again.visits + again.readings + again.verdicts +
                  again.attachments,
              0U);
    EXPECT_EQ(everything_to_json(history), exported);
}

TEST_P(Import, OfCsvBringsTheReadingsAsTheyWere) {
    const Store other(testing::Kind::sqlite);
    History source(other.address());
    fill(source);
    const auto csv = readings_to_csv(source);
    import(history, whole_pickups_from_csv(csv, history));
    EXPECT_EQ(readings_to_csv(history), [&] {
        // The number is this bench's own; the first pickup is 1 on both.
        return csv;
    }());
    EXPECT_EQ(history.readings_of(testing::id(10)), source.readings_of(testing::id(10)));
}

// A table as a spreadsheet keeps it, with columns in an order of its own, quoted fields and both kinds of
// line ends.
constexpr auto table =
    "name,visit_at,quantity,value,unit,standard_uncertainty,remark\r\n"
    "\"Neck, red guitar\",2026-03-02T10:00:00Z,dc_resistance,6112,ohm,9,\"two\r\nlines\"\r\n"
    "\"Neck, red guitar\",2026-03-02T10:00:00Z,temperature,21.4,degC,,\n"
    "\"Neck, red guitar\",2026-03-02T10:00:00Z,temperature,21.4,degC,,";

TEST_P(Import, OfATableWithoutIdsIsKnownAgain) {
    const auto neck = history.add_pickup(testing::neck());
    const auto first = import(history, whole_pickups_from_csv(table, history));
    EXPECT_EQ(first.pickups, 0U) << "it is the pickup of that name";
    EXPECT_EQ(first.visits, 1U);
    EXPECT_EQ(first.readings, 3U) << "rows that say the same are readings of their own";
    const auto again = import(history, whole_pickups_from_csv(table, history));
    EXPECT_EQ(again.visits + again.readings, 0U);
    const auto readings = history.readings_of(history.visits_of(neck.id).front().id);
    const auto resistance =
        std::ranges::find(readings, Quantity::dc_resistance,
                          [](const StoredReading& stored) { return stored.reading.quantity; });
    ASSERT_NE(resistance, readings.end());
    EXPECT_EQ(resistance->reading, testing::dc_resistance(6112.0));
    EXPECT_EQ(resistance->remark, "two\r\nlines");
}

TEST_P(Import, ThatFailsHalfwayBringsNothing) {
    const Store other(testing::Kind::sqlite);
    History source(other.address());
    fill(source);
    auto pickups = whole_pickups_from_json(everything_to_json(source));
    pickups.back().pickup.name = "-"; // which no history keeps
    EXPECT_EQ(refusal<HistoryError>([&] { import(history, pickups); }),
              store.place() + ": a pickup needs a name with a letter or digit in it, not \"-\"");
    EXPECT_THAT(history.pickups(), IsEmpty());
}

COILWARD_FOR_ANY_STORE(Import);

TEST(ImportOfJson, SaysWhatIsWrongAndWhere) {
    const std::pair<const char*, const char*> documents[] = {
        {"[]", "found an empty array, expected an object with \"histories\""},
        {"{}", "histories: missing, expected an array of histories"},
        {R"({"histories": [{}]})",
         "histories[0].pickup: missing, expected an object with a pickup's id and name"},
        {R"({"histories": [{"pickup": {"id": "7"}}]})", "histories[0].pickup.id: found \"7\", expected an id "
                                                        "such as \"0f8fad5b-d9cb-469f-a165-70867728950e\""},
        {R"({"histories": [)", "line 1, column 16: found the end of the text where JSON does not allow it; "
                               "check quotes, commas and brackets "
                               "there and just before"},
    };
    for (const auto& [document, answer] : documents)
        EXPECT_EQ(refusal<BadDocument>([&text = document] { whole_pickups_from_json(text); }), answer)
            << document;
}

TEST(ImportOfCsv, SaysWhatIsWrongAndWhere) {
    const testing::TemporaryFolder folder;
    const History known(folder.path());
    const std::pair<const char*, const char*> tables[] = {
        {"", "line 1: found nothing, expected a header with the columns' names"},
        {"name,name\r\n", "line 1: the column name is there twice; keep one"},
        {"name,quantity\r\nNeck\r\n", "line 2: found 1 fields, expected 2 as in the header"},
        {"name,visit_at,quantity,value\r\nNeck,yesterday,dc_resistance,1\r\n",
         "line 2, visit_at: found \"yesterday\", expected a time such as 2026-03-02T10:00:00Z"},
        {"name,visit_at,quantity,value\r\nNeck,2026-03-02T10:00:00Z,dc_resistance,6.1k\r\n",
         "line 2, value: found \"6.1k\", expected a number with a decimal point and without a unit, such as "
         "6112 or "
         "4.6e-11"},
        {"name,visit_at,quantity,value,unit\r\n\"a\r\nb\",2026-03-02T10:00:00Z,dc_resistance,6.1,ohm\r\n"
         "Neck,2026-03-02T10:00:00Z,dc_resistance,6.1,kohm\r\n",
         "line 4.unit: found \"kohm\", expected \"ohm\"; convert the value"},
        {"name\r\n\"Neck\r\n", "line 2: a quote is opened and never closed; close it"},
        {"name\r\nNeck \"A\"\r\n", "line 2: a quote stands within a field without quotes; put the field in "
                                   "quotes and double the quote"},
        {"name\r\n\"Neck\"A\r\n",
         "line 2: something follows a closing quote; a quote within a field is written twice"},
    };
    for (const auto& [text, answer] : tables)
        EXPECT_EQ(refusal<BadDocument>([&known, &csv = text] { whole_pickups_from_csv(csv, known); }), answer)
            << text;
}

std::vector<std::vector<std::string>> records_of(std::string_view text) {
    CsvReader reader(text);
    std::vector<std::vector<std::string>> records;
    for (CsvRecord record; reader.next(record);)
        records.push_back(record.fields);
    return records;
}

// The examples of RFC 4180, section 2, rules 1 to 7.
TEST(Csv, IsReadByRfc4180) {
    using Records = std::vector<std::vector<std::string>>;
    const std::pair<const char*, Records> examples[] = {
        {"aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", {{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
        {"aaa,bbb,ccc\r\nzzz,yyy,xxx", {{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
        {"a, b\r\n", {{"a", " b"}}},
        {"\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", {{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
        {"\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", {{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
        {"\"aaa\",\"b\"\"bb\",\"ccc\"", {{"aaa", "b\"bb", "ccc"}}},
        {",\r\n", {{"", ""}}},
    };
    for (const auto& [text, records] : examples)
        EXPECT_EQ(records_of(text), records) << text;
}

TEST(Csv, IsWrittenByRfc4180) {
    EXPECT_EQ(csv_field("aaa"), "aaa");
    EXPECT_EQ(csv_field(" b"), " b") << "spaces belong to the field";
    EXPECT_EQ(csv_field("a,b"), "\"a,b\"");
    EXPECT_EQ(csv_field("c\r\nd"), "\"c\r\nd\"");
    EXPECT_EQ(csv_field("b\"bb"), "\"b\"\"bb\"");
}

} // namespace
} // namespace coilward
