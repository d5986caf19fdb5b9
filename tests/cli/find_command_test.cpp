#include "bench/descriptor_transport.h"
#include "bench/simulated_port.h"
#include "cli/program_run.h"
#include "meter/driver_folder.h"

#include <algorithm>

#include <gmock/gmock.h>

namespace coilward {
namespace {

using testing::Coilward;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using testing::replay;
using ::testing::StartsWith;

TEST_F(Coilward, FindsEveryStreamingMeterByListening) {
    for (const Driver& driver : load_drivers(COILWARD_SOURCE_DIR "/drivers")) {
        if (driver.poll || !driver.start.empty() || driver.frame_check == FrameCheck::none) continue;
        const std::string port = replay(driver.id + "/steady.capture");
        const auto end = coilward({"find", "--port", port});
        EXPECT_EQ(end.exit_code, 0) << end.err;
        EXPECT_THAT(end.out, StartsWith(port + ": " + driver.id + " by what the meter sends\n  " + driver.id +
                                        ": " + driver.title + " ("));
        EXPECT_THAT(end.out, EndsWith("\n  coilward watch --meter " + driver.id + " --port " + port + "\n"));
    }
}

TEST_F(Coilward, FindsNoMeterInNoise) {
    const std::string port = replay("nobody/noise.capture");
    const auto end = coilward({"find", "--port", port});
    EXPECT_EQ(end.exit_code, 1);
    EXPECT_EQ(end.out, "");
    EXPECT_THAT(end.err, StartsWith("coilward: " + port +
                                    ": bytes arrive that no driver reads for certain; lcr-bin17, "));
    EXPECT_THAT(end.err, EndsWith(" cannot be told by listening: where it is one of these, name it with "
                                  "coilward watch --meter\n"));
}

/// A meter that notes what it is asked.
std::unique_ptr<SimulatedPort> noting_port(const std::string& answer, std::string& asked) {
    SimulatedPeer peer;
    peer.answer = [&asked, answer](std::string_view bytes) {
        asked += bytes;
        return answer;
    };
    return simulate_on_terminal(std::move(peer));
}

TEST_F(Coilward, SendsNothingUnlessItIsToldTo) {
    std::string asked;
    const auto port = noting_port("", asked);
    const auto end = coilward({"find", "--listen", "0.3", "--port", port->name()});
    port->unplug(); // ends its thread
    EXPECT_EQ(asked, "");
    EXPECT_EQ(end.exit_code, 1);
    EXPECT_EQ(end.err,
              "coilward: " + port->name() +
                  ": nothing is sent; switch the meter's output on, or add --ask to ask the meter\n");
}

TEST_F(Coilward, AsksWhoTheMeterIsAndNothingElse) {
    std::string asked;
    std::string asked_of_the_other;
    const auto port = noting_port("HIOKI,3511-50,0,V01.00\r\n", asked);
    const auto other = noting_port("", asked_of_the_other);
    const auto end = coilward({"find", "--ask", "--listen", "0.3", "--port", port->name()});
    port->unplug();
    other->unplug();
    EXPECT_EQ(asked_of_the_other, "");
    EXPECT_THAT(asked, ::testing::MatchesRegex("((\\*IDN\\?|ID)[\r\n]+)+"));
    EXPECT_EQ(end.exit_code, 0) << end.err;
    EXPECT_THAT(end.out,
                StartsWith(port->name() + ": lcr-meas-items by the answer \"HIOKI,3511-50,0,V01.00\"\n"));
}

TEST_F(Coilward, SaysWhereAnAnswerFitsSeveral) {
    std::string asked;
    const auto port = noting_port("NOBODY,NOTHING,0,0\n", asked);
    const auto end = coilward({"find", "--ask", "--listen", "0.3", "--port", port->name()});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    EXPECT_THAT(end.out, HasSubstr(": one of several by the answer \"NOBODY,NOTHING,0,0\"\n"));
    EXPECT_THAT(end.out, HasSubstr("\n  dmm-scpi: "));
    EXPECT_THAT(end.out, HasSubstr("\n  lcr-fetch-ab: "));
    EXPECT_THAT(end.out, HasSubstr("\n  Nothing tells them apart: choose by what the meter is.\n"));
}

} // namespace
} // namespace coilward
