#include "examples.h"
#include "history/history_json.h"
#include "temporary_folder.h"

#include <fstream>
#include <sstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

/// docs/history.md shows what the program says.
namespace coilward {
namespace {

using Json = nlohmann::json;

/// The n-th JSON example of the document, counted from 0.
Json example(std::size_t n) {
    std::ifstream file(COILWARD_SOURCE_DIR "/docs/history.md");
    std::ostringstream stream;
    stream << file.rdbuf();
    const std::string text = stream.str();
    const std::string fence = "```json\n";
    std::size_t begin = text.find(fence);
    for (; n > 0; --n)
        begin = text.find(fence, begin + 1);
    begin += fence.size();
    return Json::parse(text.substr(begin, text.find("```", begin) - begin));
}

struct DocumentedExamples : ::testing::Test {
    testing::TemporaryFolder folder;
    History history{folder.path()};
    Pickup pickup = history.add_pickup(testing::bridge());
};

TEST_F(DocumentedExamples, OfAHistoryIsWhatTheProgramSays) {
    const auto visit = testing::visit_of(pickup, 10, "2026-03-02T10:00:00Z");
    history.begin_visit(visit);
    auto wrong = testing::stored(visit, 20, testing::dc_resistance(4100.0, "slug"));
    wrong.meter = "bench-lcr";
    wrong.port = "/dev/ttyUSB0";
    wrong.raw = "+4.100E3\r\n";
    auto correction = testing::stored(visit, 21, testing::dc_resistance(4100.0, "screw"));
    correction.corrects = wrong.id;
    correction.remark = "it was the other coil";
    history.append_readings(std::vector{wrong, correction});
    history.store_verdict(testing::verdict(visit, 30, "screw", false));
    EXPECT_EQ(Json::parse(history_to_json(history, pickup)), example(0));
}

TEST_F(DocumentedExamples, OfAPickupIsWhatTheProgramSays) {
    pickup.owner = "C. Nonymous";
    history.edit_pickup(pickup, testing::id(70), testing::at("2027-01-15T14:00:00Z"));
    EXPECT_EQ(Json::parse(pickup_to_json(pickup, history.changes_of(pickup.id))), example(1));
}

} // namespace
} // namespace coilward
