#include "bench/watch.h"
#include "capture_folder.h"
#include "scripted_meter.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;

const std::string frame = "\x02"
                          "41390300007352\r";

WatchEnd watched(const std::shared_ptr<Script>& script, WatchOrder order) {
    MeterSession session(shipped_driver("stx16"), scripted_link(script));
    return watch(session, order, [](const StampedReading&) {});
}

TEST(Watch, EndsAtTheCountEvenWhereMoreHasArrived) {
    auto script = std::make_shared<Script>();
    script->pieces = {frame + frame + frame};
    WatchOrder order;
    order.count = 2;
    const WatchEnd end = watched(script, order);
    EXPECT_EQ(end.why, WatchEnd::Why::counted);
    EXPECT_EQ(end.readings, 2U);
}

TEST(Watch, CountsTheBytesThatAreNoReading) {
    auto script = std::make_shared<Script>();
    script->pieces = {"garbage", frame,
                      "\x02"
                      "4139",
                      frame};
    WatchOrder order;
    order.count = 2;
    const WatchEnd end = watched(script, order);
    EXPECT_EQ(end.readings, 2U);
    EXPECT_EQ(end.counts.bytes_that_are_no_reading(), 12U);
    EXPECT_EQ(end.counts.pieces(Verdict::no_start), 1U);
    EXPECT_EQ(end.counts.pieces(Verdict::too_short), 1U);
}

TEST(Watch, GivesUpOnASilentMeterButNotBeforeItsPatienceIsOver) {
    auto script = std::make_shared<Script>();
    WatchOrder order;
    order.patience = seconds(4);
    Link link = scripted_link(script);
    const auto clock = link.clock;
    MeterSession session(shipped_driver("stx16"), std::move(link));
    const WatchEnd end = watch(session, order, [](const StampedReading&) {});
    EXPECT_EQ(end.why, WatchEnd::Why::silent);
    EXPECT_EQ(clock->elapsed(), seconds(4));
}

TEST(Watch, StopsWhenItIsTold) {
    auto script = std::make_shared<Script>();
    WatchOrder order;
    order.patience = milliseconds(0);
    int asked = 0;
    order.stop = [&] { return ++asked > 3; };
    EXPECT_EQ(watched(script, order).why, WatchEnd::Why::stopped);
}

TEST(Watch, TellsALostDeviceFromTheEndOfACapture) {
    auto script = std::make_shared<Script>();
    script->pulled = true;
    EXPECT_EQ(watched(script, {}).why, WatchEnd::Why::unplugged);
    const Driver& driver = shipped_driver("stx16");
    MeterSession replay(
        driver, open_port(ReplayPort{COILWARD_SOURCE_DIR "/captures/stx16/steady.capture"}, driver.serial));
    const WatchEnd end = watch(replay, {}, [](const StampedReading&) {});
    EXPECT_EQ(end.why, WatchEnd::Why::ended);
    EXPECT_EQ(end.readings, 3U);
}

TEST(Watch, PrintsTheReadingsFormWithTimeAndMeter) {
    StampedReading stamped;
    stamped.at = *moment_from_text("2026-03-02T10:00:00.250Z");
    stamped.meter = "dmm-scpi";
    stamped.reading.quantity = Quantity::dc_resistance;
    stamped.reading.value = 6112.0;
    EXPECT_EQ(watch_line(stamped),
              R"({"at":"2026-03-02T10:00:00.250Z","meter":"dmm-scpi","quantity":"dc_resistance",)"
              R"("between":"leads","value":6112.0,"unit":"ohm"})");
}

TEST(Watch, StampsAReplayWithTheTimesOfTheCapture) {
    const Driver& driver = shipped_driver("stx16");
    MeterSession replay(
        driver, open_port(ReplayPort{COILWARD_SOURCE_DIR "/captures/stx16/steady.capture"}, driver.serial));
    std::vector<std::string> times;
    watch(replay, {}, [&](const StampedReading& each) { times.push_back(text_of(each.at)); });
    EXPECT_EQ(times, (std::vector<std::string>{"2026-03-04T09:00:00.000Z", "2026-03-04T09:00:00.500Z",
                                               "2026-03-04T09:00:01.000Z"}));
}

} // namespace
} // namespace coilward
