#include "bench/simulated_port.h"
#include "cli/program_run.h"
#include "meter/driver_folder.h"

#include <algorithm>
#include <array>
#include <filesystem>

#include <fcntl.h>
#include <gmock/gmock.h>
#include <poll.h>
#include <stdlib.h>

namespace coilward {
namespace {

using testing::Coilward;
using ::testing::HasSubstr;
using testing::replay;

class WatchingSeveral : public Coilward {
protected:
    std::unique_ptr<SimulatedPort> port_with(const std::string& driver) const {
        const auto coil = [](Quantity, Circuit, double) -> std::optional<double> { return 6112.0; };
        return simulate_on_tcp(SimulatedMeter(*driver_named(drivers_, driver), coil));
    }

private:
    std::vector<Driver> drivers_ = load_drivers(COILWARD_SOURCE_DIR "/drivers");
};

TEST_F(WatchingSeveral, ReadsEachMeterToItsCount) {
    const auto dmm = port_with("dmm-scpi");
    const auto ohm = port_with("ohm-fetch");
    const auto end = coilward({"watch", "--meter", "dmm-scpi", "--port", dmm->name(), "--meter", "ohm-fetch",
                               "--port", ohm->name(), "--count", "3", "--json"});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    const auto count = [&](const std::string& text) {
        std::size_t found = 0;
        for (auto at = end.out.find(text); at != std::string::npos; at = end.out.find(text, at + 1))
            ++found;
        return found;
    };
    EXPECT_EQ(count("\"meter\":\"dmm-scpi\""), 3U);
    EXPECT_EQ(count("\"meter\":\"ohm-fetch\""), 3U);
    EXPECT_EQ(end.err, "coilward: " + dmm->name() + ": bytes that were no reading: 0\ncoilward: " +
                           ohm->name() + ": bytes that were no reading: 0\n");
}

TEST_F(WatchingSeveral, WantsAPortForEachMeter) {
    const auto end = coilward(
        {"watch", "--meter", "stx16", "--meter", "dmm-scpi", "--port", replay("stx16/steady.capture")});
    EXPECT_EQ(end.exit_code, 2);
    EXPECT_EQ(end.err, "coilward: --port: 2 meters and 1 of these; give one --port for each --meter, in the "
                       "same order; see coilward watch --help\n");
}

TEST_F(WatchingSeveral, RecordsWhatReplayThenReads) {
    const auto dmm = port_with("dmm-scpi");
    const auto file = folder.path() / "mine.capture";
    const auto watched = coilward(
        {"watch", "--meter", "dmm-scpi", "--port", dmm->name(), "--count", "3", "--json", "--record", file});
    EXPECT_EQ(watched.exit_code, 0) << watched.err;
    const auto replayed = coilward({"replay", file, "--full-speed"});
    EXPECT_EQ(replayed.exit_code, 0) << replayed.err;
    EXPECT_GE(std::ranges::count(replayed.out, '\n'), 3);
}

/// All that the program writes on a terminal of its own.
std::string on_a_terminal(std::vector<std::string> words) {
    const int master = ::posix_openpt(O_RDWR | O_NOCTTY);
    if (master < 0 || ::grantpt(master) != 0 || ::unlockpt(master) != 0) return {};
    const std::string terminal = ::ptsname(master);
    const pid_t child = testing::start_child([&] {
        const int slave = ::open(terminal.c_str(), O_RDWR);
        for (const int descriptor : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
            ::dup2(slave, descriptor);
        words.insert(words.begin(), COILWARD_PROGRAM);
        std::vector<char*> arguments;
        for (auto& word : words)
            arguments.push_back(word.data());
        arguments.push_back(nullptr);
        ::execv(COILWARD_PROGRAM, arguments.data());
    });
    std::string screen;
    for (pollfd waiting{master, POLLIN, 0}; ::poll(&waiting, 1, 20000) > 0;) {
        std::array<char, 512> buffer;
        const auto count = ::read(master, buffer.data(), buffer.size());
        if (count <= 0) break;
        screen.append(buffer.data(), static_cast<std::size_t>(count));
    }
    testing::end_of(child);
    ::close(master);
    return screen;
}

TEST_F(WatchingSeveral, ShowsALineAMeterThatStandsStill) {
    const auto dmm = port_with("dmm-scpi");
    const auto screen = on_a_terminal({"watch", "--meter", "dmm-scpi", "--port", dmm->name(), "--count", "4",
                                       "--drivers", COILWARD_SOURCE_DIR "/drivers"});
    EXPECT_THAT(screen,
                HasSubstr("\x1b[1A\x1b[2Kdmm-scpi on " + dmm->name() + "  DC resistance: 6.11200 kΩ  "));
    EXPECT_THAT(screen, HasSubstr("/s  4 of 4\r\n"));
}

TEST_F(WatchingSeveral, TellsAWrongFunctionInPlainWords) {
    SimulatedPeer peer;
    peer.answer = [](std::string_view) { return std::string(); };
    peer.unasked = [] { return std::string("2 ACV 12.34 V\r\n"); };
    peer.every = std::chrono::milliseconds(50);
    const auto port = simulate_on_terminal(std::move(peer));
    const auto end = coilward(
        {"watch", "--meter", "dmm-ascii-line", "--port", port->name(), "--count", "1", "--patience", "0.6"});
    EXPECT_EQ(end.exit_code, 1);
    EXPECT_THAT(end.err, HasSubstr("coilward: " + port->name() + ": the meter is on volts AC\n"));
}

} // namespace
} // namespace coilward
