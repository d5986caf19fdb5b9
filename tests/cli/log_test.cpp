#include "cli/program_run.h"
#include "cli/running_program.h"
#include "serve/raw_client.h"

#include <algorithm>
#include <chrono>
#include <fstream>
#include <iterator>
#include <thread>

#include <gmock/gmock.h>

namespace coilward {
namespace {

using testing::Coilward;
using ::testing::ContainsRegex;

std::string text_of(const std::filesystem::path& file) {
    std::ifstream stream(file);
    return {std::istreambuf_iterator<char>(stream), {}};
}

/// The log once it has a line like this; at the latest after ten seconds.
std::string awaited(const std::filesystem::path& log, const std::string& part) {
    for (int i = 0; i < 200 && text_of(log).find(part) == std::string::npos; ++i)
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
    return text_of(log);
}

constexpr auto stamp = "[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}[.][0-9]{3}Z ";

std::vector<std::string> simulated_meter() {
    return {"simulate",
            "--meter",
            "dmm-scpi",
            "--coil",
            "six-rod-42",
            "--on",
            "tcp",
            "--rules",
            COILWARD_SOURCE_DIR "/rules",
            "--drivers",
            COILWARD_SOURCE_DIR "/drivers"};
}

TEST_F(Coilward, LogsWhoWasRefusedAndWhichMeterWasLost) {
    testing::RunningProgram meter(COILWARD_PROGRAM, simulated_meter());
    const std::string port = meter.line();
    const auto log = folder.path() / "log";
    testing::RunningProgram server(COILWARD_PROGRAM, {"serve", "--listen", "127.0.0.1:0", "--meter",
                                                      "dmm-scpi", "--port", port, "--log", log, "--data",
                                                      folder.path(), "--rules", COILWARD_SOURCE_DIR "/rules",
                                                      "--drivers", COILWARD_SOURCE_DIR "/drivers"});
    const std::string said = server.line();
    EXPECT_THAT(awaited(log, ": reading"),
                ContainsRegex(stamp + ("info dmm-scpi on " + port + ": reading\n")));

    const auto colon = said.find(':', said.find("http://") + 7);
    const testing::RawClient client(std::stoi(said.substr(colon + 1)));
    client.send("GET /elsewhere%0d%0afalse%20line HTTP/1.1\r\nHost: rebound.example\r\n\r\n");
    client.answer("\r\n\r\n");
    EXPECT_THAT(awaited(log, "421"),
                ContainsRegex(stamp + std::string("warning GET /elsewhere.*false line: answered 421\n")));

    meter.interrupt();
    EXPECT_THAT(awaited(log, ": unplugged"),
                ContainsRegex(stamp + ("info dmm-scpi on " + port + ": unplugged")));
}

TEST_F(Coilward, KeepsTheLogOutOfTheAnswer) {
    testing::RunningProgram meter(COILWARD_PROGRAM, simulated_meter());
    const std::string port = meter.line();
    const auto quiet = coilward({"watch", "--meter", "dmm-scpi", "--port", port, "--count", "1", "--json"});
    const auto logged =
        coilward({"watch", "--meter", "dmm-scpi", "--port", port, "--count", "1", "--json", "--log", "-"});
    EXPECT_EQ(quiet.exit_code, 0) << quiet.err;
    EXPECT_EQ(logged.exit_code, 0) << logged.err;
    EXPECT_EQ(std::ranges::count(logged.out, '\n'), 1) << logged.out;
    EXPECT_EQ(std::ranges::count(quiet.out, '\n'), 1) << quiet.out;
}

TEST_F(Coilward, SaysWhereALogCannotBeWritten) {
    const auto end = coilward({"serve", "--log", "/proc/nowhere/log"});
    EXPECT_EQ(end.exit_code, 3);
    EXPECT_EQ(end.err,
              "coilward: /proc/nowhere/log: the log cannot be written there; give another file to --log\n");
}

} // namespace
} // namespace coilward
