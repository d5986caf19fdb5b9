#include "examples.h"
#include "history/history_json.h"
#include "reading/examination_json.h"
#include "temporary_folder.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using testing::at;
using testing::bridge;
using testing::dc_resistance;
using testing::id;
using testing::neck;
using testing::stored;
using testing::verdict;
using testing::visit_of;

constexpr auto bridge_form =
    R"("number":1,"id":"00000000-0000-4000-8000-000000000001","name":"Bridge, red guitar",)"
    R"("owner":"A. Nonymous","instrument":"red guitar, 6 strings",)"
    R"("pickup_type":"dual-coil-series","coils":{"slug":"six-slug-42","screw":"six-screw-42"},)"
    R"("notes":"weak since the house move","added_at":"2026-03-02T09:00:00.001Z")";

TEST(HistoryJson, ListsPickups) {
    auto first = bridge();
    first.number = 1;
    Pickup second = neck();
    second.number = 2;
    second.pickup_type = "";
    EXPECT_EQ(
        pickups_to_json({first, second}),
        std::string(R"({"pickups":[{)") + bridge_form +
            R"(},{"number":2,"id":"00000000-0000-4000-8000-000000000002","name":"Neck, red guitar",)"
            R"("owner":"A. Nonymous","instrument":"red guitar, 6 strings","coil_model":"six-rod-42","notes":"",)"
            R"("added_at":"2026-03-02T09:05:00.000Z"}]})");
    EXPECT_EQ(pickups_to_json({}), R"({"pickups":[]})");
}

TEST(HistoryJson, TellsAPickupsFormerValues) {
    auto pickup = bridge();
    pickup.number = 1;
    EXPECT_EQ(
        pickup_to_json(pickup, {{id(70), at("2027-01-15T14:00:00Z"), "owner", "C. \"Non\" \xff"}}),
        std::string("{") + bridge_form +
            R"(,"changes":[{"edit":"00000000-0000-4000-8000-000000000046","at":"2027-01-15T14:00:00.000Z",)"
            "\"field\":\"owner\",\"former\":\"C. \\\"Non\\\" \xef\xbf\xbd\"}]}");
}

TEST(HistoryJson, TellsAllVisits) {
    const testing::TemporaryFolder folder;
    History history(folder.path());
    const auto pickup = history.add_pickup(bridge());
    const auto visit = visit_of(pickup, 10, "2026-03-02T10:00:00Z");
    history.begin_visit(visit);
    auto first = stored(visit, 20, dc_resistance(4100.0, "slug"));
    first.meter = "bench-lcr";
    first.port = "/dev/ttyUSB0";
    first.raw = "\x01 4.1\n";
    auto second = stored(visit, 21, dc_resistance(4100.0, "screw"));
    second.corrects = first.id;
    second.remark = "the other coil";
    history.append_readings(std::vector{first, second});
    history.store_verdict(verdict(visit, 30, "screw", false));
    auto broken = verdict(visit, 31, "", true);
    broken.document = "{";
    history.store_verdict(broken);

    const auto text = history_to_json(history, pickup);
    EXPECT_EQ(text.find('\n'), std::string::npos);
    const auto document = nlohmann::ordered_json::parse(text);
    EXPECT_EQ(document["pickup"].dump(), std::string("{") + bridge_form + "}");
    ASSERT_EQ(document["visits"].size(), 1U);
    const auto& told = document["visits"][0];
    EXPECT_EQ(told["id"], "00000000-0000-4000-8000-00000000000a");
    EXPECT_EQ(told["at"], "2026-03-02T10:00:00.000Z");
    EXPECT_EQ(told["stage"], "as received");
    EXPECT_EQ(told["rewound"], false);
    EXPECT_EQ(told["notes"], "");

    ASSERT_EQ(told["readings"].size(), 2U);
    auto reading = told["readings"][0];
    EXPECT_EQ(reading["id"], "00000000-0000-4000-8000-000000000014");
    EXPECT_EQ(reading["at"], "2026-03-02T10:00:00.020Z");
    EXPECT_EQ(reading["meter"], "bench-lcr");
    EXPECT_EQ(reading["port"], "/dev/ttyUSB0");
    EXPECT_EQ(reading["raw"], "0120342e310a");
    EXPECT_EQ(told["readings"][1]["corrects"], reading["id"]);
    EXPECT_EQ(told["readings"][1]["remark"], "the other coil");
    for (const char* own : {"id", "at", "meter", "port", "raw"})
        reading.erase(own);
    EXPECT_EQ(reading, nlohmann::ordered_json::parse(reading_to_json(first.reading)))
        << "the rest is the readings form";

    ASSERT_EQ(told["verdicts"].size(), 2U);
    EXPECT_EQ(
        told["verdicts"][0].dump(),
        R"({"id":"00000000-0000-4000-8000-00000000001e","at":"2026-03-02T10:00:30.000Z","coil":"screw",)"
        R"("fault":"shorted-turns","probability":0.973,"decided":true,"healthy":false,)"
        R"("diagnosis":{"coil_model":"six-rod-42"}})");
    EXPECT_FALSE(told["verdicts"][1].contains("diagnosis")) << "a document that is no JSON is left out";
}

} // namespace
} // namespace coilward
