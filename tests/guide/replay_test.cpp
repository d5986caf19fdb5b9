#include "guide/replay.h"
#include "guide/scripted_bench.h"

#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using ::testing::ElementsAre;
using testing::Workshop;

/// A whole bench session of one LCR meter, as it would be recorded: two set-ups, the second at 120 Hz.
/// Constructed after captures/lcr-fetch-ab/steady.capture.
constexpr const char* session = R"(coilward capture 1
driver: lcr-fetch-ab
title: Ls and Rs at 1 kHz, then Ls and Q at 120 Hz
began: 2026-03-02T09:00:00.000Z
provenance: constructed for this test

+0 > "*CLS\n"
+5 > "FUNC:IMP LSRS\n"
+10 > "FREQ 1000\n"
+1075 > "FETC?\n"
+1130 < "+2.33100E+00,+6.58000E+03,+0\n"
+1340 > "FETC?\n"
+1400 < "+2.33100E+00,+6.58000E+03,+0\n"
+2005 > "FUNC:IMP LSQ\n"
+2010 > "FREQ 120\n"
+3075 > "FETC?\n"
+3130 < "+2.35000E+00,+2.87000E-01,+0\n"
)";

std::vector<std::string> words_of(const std::vector<RecordedPart>& parts) {
    std::vector<std::string> words;
    for (const RecordedPart& part : parts)
        words.push_back(part.request ? to_text(*part.request) : "as it is");
    return words;
}

BenchMeter shipped_replay(std::string_view driver, const std::string& capture) {
    const std::string file = COILWARD_SOURCE_DIR "/captures/" + capture;
    return bench_meter(shipped_driver(driver), ReplayPort{file}, "replay:" + file);
}

TEST(Replay, FollowsTheSetUpsOfTheRecording) {
    const Driver& driver = shipped_driver("lcr-fetch-ab");
    EXPECT_THAT(words_of(recorded_parts(capture_from_text(session, "session"), driver)),
                ElementsAre("inductance series 1000", "quality_factor series 120"));
}

TEST(Replay, TakesTheHeadingWhereNoSetUpWasSent) {
    Capture capture;
    EXPECT_THAT(words_of(recorded_parts(capture, shipped_driver("stx16"))), ElementsAre("as it is"));
    capture.request = request_from_text("capacitance parallel 1000 start-frame");
    EXPECT_THAT(words_of(recorded_parts(capture, shipped_driver("lcr-fetch-ab"))),
                ElementsAre("capacitance parallel 1000 start-frame"));
}

TEST(Replay, GivesWhatWasRecordedInItsOrder) {
    Workshop shop;
    std::ofstream(shop.folder.path() / "session.capture") << session;
    BenchMeter meter = bench_meter(shipped_driver("lcr-fetch-ab"),
                                   ReplayPort{shop.folder.path() / "session.capture"}, "replay:session");
    const auto all = replayed(meter, {});
    ASSERT_EQ(all.size(), 2U);
    ASSERT_EQ(all[1].readings.size(), 2U);
    EXPECT_EQ(all[1].readings[0].quantity, Quantity::inductance);
    EXPECT_EQ(all[1].readings[1].quantity, Quantity::quality_factor);
    EXPECT_DOUBLE_EQ(all[0].readings.at(1).value.value(), 6580.0) << "no reply of the second set-up";
    EXPECT_DOUBLE_EQ(all[1].readings[0].value.value(), 2.35);
    EXPECT_DOUBLE_EQ(all[1].readings[1].value.value(), 0.287);
    EXPECT_DOUBLE_EQ(all[1].readings[0].frequency_hz.value(), 120.0);
}

struct Ending {
    const char* what;
    const char* driver;
    const char* capture;
    Quantity quantity;
    State state;
    double value; ///< as the capture's .expected.jsonl has it
};

TEST(Replay, JudgesWhatHadNotSettledAsItIs) {
    const std::vector<Ending> table{
        {"three alike", "stx16", "stx16/steady.capture", Quantity::dc_resistance, State::ok,
         (7352.0 + 7352.0 + 7353.0) / 3.0},
        {"a clip comes off", "dmm-scpi", "dmm-scpi/lead-off.capture", Quantity::dc_resistance,
         State::unstable, 6112.0},
        {"over range", "lcr-fetch-ab", "lcr-fetch-ab/over-range.capture", Quantity::inductance,
         State::over_range, 0.0},
    };
    for (const Ending& ending : table) {
        SCOPED_TRACE(ending.what);
        Workshop shop;
        shop.meters.push_back(shipped_replay(ending.driver, ending.capture));
        shop.examine();
        const auto kept = shop.kept();
        ASSERT_FALSE(kept.empty());
        EXPECT_EQ(kept.front().reading.quantity, ending.quantity);
        EXPECT_EQ(kept.front().reading.state, ending.state);
        EXPECT_NEAR(kept.front().reading.value.value_or(0.0), ending.value, 1.0);
        EXPECT_EQ(kept.front().remark, "the capture ended with it");
        EXPECT_FALSE(kept.front().raw.empty());
        EXPECT_TRUE(shop.person.placed.empty()) << "a recording needs nobody";
    }
}

} // namespace
} // namespace coilward
