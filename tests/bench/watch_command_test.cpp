#include "bench/simulated_port.h"
#include "capture_folder.h"

#include <array>
#include <cstdio>
#include <filesystem>
#include <iterator>

#include <gtest/gtest.h>
#include <stdlib.h>
#include <sys/wait.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;

struct Outcome {
    int exit_code = -1;
    std::string out;
    std::string err;
};

/// Runs `coilward watch` of this build with the shipped drivers.
Outcome watch_with(const std::string& words) {
    std::string pattern = (fs::temp_directory_path() / "coilward-watch-XXXXXX").string();
    const fs::path folder = ::mkdtemp(pattern.data());
    const std::string command = COILWARD_PROGRAM " --drivers " COILWARD_SOURCE_DIR "/drivers watch " + words +
                                " 2>" + (folder / "err").string();
    Outcome outcome;
    FILE* program = ::popen(command.c_str(), "r");
    std::array<char, 512> buffer;
    while (const std::size_t count = std::fread(buffer.data(), 1, buffer.size(), program))
        outcome.out.append(buffer.data(), count);
    outcome.exit_code = WEXITSTATUS(::pclose(program));
    std::ifstream in(folder / "err");
    outcome.err.assign(std::istreambuf_iterator<char>(in), {});
    fs::remove_all(folder);
    return outcome;
}

std::string replay(const std::string& capture) {
    return "--port replay:" COILWARD_SOURCE_DIR "/captures/" + capture;
}

TEST(WatchCommand, PrintsReadingsAndCountsTheRest) {
    const Outcome outcome =
        watch_with("--meter stx16 --count 2 --json " + replay("stx16/cut-mid-frame.capture"));
    EXPECT_EQ(outcome.exit_code, 0);
    EXPECT_EQ(outcome.out, R"({"at":"2026-03-04T09:50:00.500Z","meter":"stx16","quantity":"dc_resistance",)"
                           R"("between":"leads","value":7352.0,"unit":"ohm"})"
                           "\n"
                           R"({"at":"2026-03-04T09:50:01.010Z","meter":"stx16","quantity":"dc_resistance",)"
                           R"("between":"leads","value":7352.0,"unit":"ohm"})"
                           "\n");
    EXPECT_EQ(outcome.err, "coilward: bytes that were no reading: 15 (too_short 1, no_start 1)\n");
}

TEST(WatchCommand, EndsWithOneWhereTheWorkCouldNotBeDone) {
    const Outcome gone = watch_with("--meter stx16 --count 9 " + replay("stx16/cut-mid-frame.capture"));
    EXPECT_EQ(gone.exit_code, 1);
    EXPECT_NE(gone.err.find("the meter is gone after 2 readings; check its plug and start again"),
              std::string::npos);
    const Outcome over = watch_with("--meter stx16 --count 9 " + replay("stx16/steady.capture"));
    EXPECT_EQ(over.exit_code, 1);
    EXPECT_NE(over.err.find("the capture ended after 3 readings; ask for fewer"), std::string::npos);
    EXPECT_EQ(watch_with("--meter stx16 --count 1 --port /dev/no-such-meter").exit_code, 1);
}

TEST(WatchCommand, EndsWithTwoWhereItsWordsAreWrong) {
    for (const char* words : {"--meter nobodys --port /dev/null", "--meter stx16 --port udp://x",
                              "--meter stx16", "--meter stx16 --port /dev/null --measure loudness",
                              "--meter dmm-scpi --port /dev/null --measure inductance", "--colour red"}) {
        const Outcome outcome = watch_with(words);
        EXPECT_EQ(outcome.exit_code, 2) << words;
        EXPECT_EQ(std::ranges::count(outcome.err, '\n'), 1) << outcome.err;
    }
}

TEST(WatchCommand, EndsWithThreeWhereTheCaptureIsWrong) {
    const Outcome outcome = watch_with("--meter stx16 --count 1 --port replay:/nowhere.capture");
    EXPECT_EQ(outcome.exit_code, 3);
    EXPECT_EQ(outcome.err, "coilward: /nowhere.capture: this capture cannot be read; check its name\n");
}

TEST(WatchCommand, WatchesALivePortToItsCount) {
    const auto coil = [](Quantity, Circuit, double) -> std::optional<double> { return 6112.0; };
    const Driver& driver = shipped_driver("dmm-scpi");
    const auto terminal = simulate_on_terminal(SimulatedMeter(driver, coil));
    const auto network = simulate_on_tcp(SimulatedMeter(driver, coil));
    for (const std::string& port : {terminal->name(), network->name()}) {
        const Outcome outcome = watch_with("--meter dmm-scpi --count 3 --json --port " + port);
        EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
        EXPECT_EQ(std::ranges::count(outcome.out, '\n'), 3);
        EXPECT_EQ(outcome.err, "coilward: bytes that were no reading: 0\n");
    }
}

} // namespace
} // namespace coilward
