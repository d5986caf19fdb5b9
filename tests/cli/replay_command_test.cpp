#include "bench/capture.h"
#include "cli/program_run.h"
#include "sanitize/slowed_down.h"

#include <algorithm>
#include <chrono>
#include <fstream>

#include <gmock/gmock.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using testing::Coilward;
using Time = std::chrono::steady_clock;

/// A streaming meter's capture of that length, ten readings a second.
void write_capture(const std::filesystem::path& file, milliseconds length) {
    Capture capture = read_capture(COILWARD_SOURCE_DIR "/captures/stx16/steady.capture");
    const auto frames = capture.events;
    capture.events.clear();
    for (milliseconds at{0}; at < length; at += milliseconds(100)) {
        capture.events.push_back(frames[capture.events.size() % frames.size()]);
        capture.events.back().at = at;
    }
    std::ofstream(file) << to_text(capture);
}

TEST_F(Coilward, ReplaysTenMinutesInAFifthOfASecond) {
    const auto file = folder.path() / "long.capture";
    write_capture(file, std::chrono::minutes(10));
    const auto out = folder.path() / "out"; // to read it byte by byte would take longer than to replay it
    const std::string command = std::string(COILWARD_PROGRAM " --drivers " COILWARD_SOURCE_DIR
                                                             "/drivers replay --full-speed --json ") +
                                file.string() + " >" + out.string();
    auto quickest = Time::duration::max();
    for (int turn = 0; turn < 5; ++turn) { // the machine may be busy with other things
        const auto began = Time::now();
        const auto end = testing::run_program("/bin/sh", {"-c", command});
        quickest = std::min(quickest, Time::now() - began);
        EXPECT_EQ(end.exit_code, 0) << end.err;
        EXPECT_EQ(end.err, "coilward: 6000 readings of stx16; bytes that were no reading: 0\n");
    }
    if (!testing::slowed_down) {
        EXPECT_LT(quickest, milliseconds(200));
    }
    std::ifstream lines(out);
    EXPECT_EQ(std::count(std::istreambuf_iterator<char>(lines), {}, '\n'), 6000);
}

TEST_F(Coilward, ReplaysAtTheSpeedAtWhichItWasRecorded) {
    const auto file = folder.path() / "short.capture";
    write_capture(file, milliseconds(1000));
    const auto began = Time::now();
    const auto end = coilward({"replay", file});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    EXPECT_GE(Time::now() - began, milliseconds(900));
    EXPECT_TRUE(end.out.starts_with("2026-03-04T09:00:00.000Z  DC resistance: 7.35200 kΩ\n")) << end.out;
}

TEST_F(Coilward, ReplaysWhatWatchReads) {
    const std::string capture = COILWARD_SOURCE_DIR "/captures/dmm-scpi/steady.capture";
    const auto watched = coilward({"watch", "--meter", "dmm-scpi", "--port", "replay:" + capture, "--json"});
    EXPECT_EQ(coilward({"replay", capture, "--full-speed", "--json"}).out, watched.out);
}

TEST_F(Coilward, SaysWhatIsWrongWithAReplay) {
    const auto nowhere = coilward({"replay", "/nowhere.capture"});
    EXPECT_EQ(nowhere.exit_code, 3);
    EXPECT_EQ(nowhere.err, "coilward: /nowhere.capture: this capture cannot be read; check its name\n");
    const std::string noise = COILWARD_SOURCE_DIR "/captures/nobody/noise.capture";
    const auto nobody = coilward({"replay", noise});
    EXPECT_EQ(nobody.exit_code, 2);
    EXPECT_EQ(nobody.err, "coilward: --meter: " + noise +
                              " belongs to no driver; name one; see coilward replay --help\n");
}

} // namespace
} // namespace coilward
