#include "bench/recording.h"
#include "bench/watch.h"
#include "capture_folder.h"
#include "scripted_meter.h"

#include <filesystem>

#include <gtest/gtest.h>
#include <stdlib.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;

class Recording : public testing::Test {
protected:
    Recording() {
        std::string pattern = (fs::temp_directory_path() / "coilward-recording-XXXXXX").string();
        folder = ::mkdtemp(pattern.data());
        head.driver = "dmm-scpi";
        head.title = "a test";
        head.provenance = "made by a test";
    }

    ~Recording() override { fs::remove_all(folder); }

    fs::path folder;
    Capture head;
};

TEST_F(Recording, IsReplayedToTheSameReadings) {
    const Driver& driver = shipped_driver("dmm-scpi");
    const MeasurementRequest request{.quantity = Quantity::dc_resistance};
    auto script = std::make_shared<Script>();
    int asked = 0;
    script->answer = [&](const std::string& command) -> std::string {
        if (command == "SYST:ERR?\n") return "+0,\"No error\"\r\n";
        return command == "READ?\n" ? "+6.1120000" + std::to_string(++asked) + "E+03\r\n" : "";
    };
    head.request = request;
    WatchOrder order;
    order.request = request;
    order.count = 4;
    std::vector<Reading> live;
    {
        MeterSession session(driver, recording(scripted_link(script), head, folder / "a.capture"));
        watch(session, order, [&](const StampedReading& each) { live.push_back(each.reading); });
    }
    Link link = open_port(ReplayPort{folder / "a.capture"}, driver.serial);
    order.request = link.recorded_request;
    MeterSession session(driver, std::move(link));
    std::vector<Reading> again;
    watch(session, order, [&](const StampedReading& each) { again.push_back(each.reading); });
    EXPECT_EQ(live.size(), 4U);
    EXPECT_TRUE(same_readings(again, live));
}

TEST_F(Recording, KeepsTheLossOfTheDevice) {
    auto script = std::make_shared<Script>();
    script->pieces = {"half a li"};
    script->pulled = true;
    {
        Link link = recording(scripted_link(script), head, folder / "lost.capture");
        while (link.transport->read(std::chrono::milliseconds(10)).outcome != LinkOutcome::unplugged) {
        }
    }
    const Capture capture = read_capture(folder / "lost.capture");
    ASSERT_EQ(capture.events.size(), 2U);
    EXPECT_EQ(capture.events[0].bytes, "half a li");
    EXPECT_EQ(capture.events[1].kind, CaptureEvent::Kind::unplugged);
}

TEST_F(Recording, NeverWritesOverAnotherCapture) {
    auto script = std::make_shared<Script>();
    recording(scripted_link(script), head, folder / "a.capture");
    try {
        recording(scripted_link(script), head, folder / "a.capture");
        ADD_FAILURE();
    } catch (const TransportError& error) {
        EXPECT_EQ(error.what(), (folder / "a.capture").string() +
                                    ": this file exists already; name another for the capture");
    }
}

} // namespace
} // namespace coilward
