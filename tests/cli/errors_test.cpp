#include "cli/program_run.h"
#include "meter/driver_folder.h"

#include <fstream>
#include <sstream>

#include <gmock/gmock.h>

namespace coilward {
namespace {

using ::testing::AllOf;
using testing::Coilward;
using ::testing::EndsWith;
using testing::replay;
using ::testing::StartsWith;

/// "dmm-scpi, lcr-fetch-ab, ...": every driver that ships.
std::string ids_in(const std::string& folder) {
    std::string ids;
    for (const Driver& driver : load_drivers(folder))
        ids += (ids.empty() ? "" : ", ") + driver.id;
    return ids;
}

struct Failure {
    std::vector<std::string> words;
    int exit_code;
    std::string line; ///< without "coilward: "
};

TEST_F(Coilward, SaysEveryFailureInOneLine) {
    add_pickup("Neck");
    ASSERT_EQ(coilward({"pickup", "add", "--name", "Bare"}).exit_code, 0);
    const std::string drivers = COILWARD_SOURCE_DIR "/drivers";
    const std::string commands = "the commands are examine, diagnose, serve, demo, ports, find, watch, "
                                 "replay, simulate, check-driver, "
                                 "pickup, history, backup, verify, export, import, merge, plan, confirm, "
                                 "compare, chart, spool, models, "
                                 "model, check-rules; see coilward --help";
    const std::vector<Failure> table{
        {{}, 2, "no command is given; " + commands},
        {{"frobnicate"}, 2, "\"frobnicate\" is no command of coilward; " + commands},
        {{"--colour"}, 2, "\"--colour\" is no option of coilward; " + commands},
        {{"pickup", "sell"},
         2,
         "\"sell\" is no command of pickup; the commands are add, list, show, edit, "
         "attach, fetch, stage; see coilward pickup --help"},
        {{"plan"},
         2,
         "Exactly 1 option from [--turns,--dc-resistance,--inductance,--as-it-was] is required; see coilward "
         "plan --help"},
        {{"spool", "--gauge", "42"}, 2, "\"--gauge\" is no option of spool; see coilward spool --help"},
        {{"plan", "8000"}, 2, "\"8000\" is no argument of plan; see coilward plan --help"},
        {{"spool", "--awg", "42", "--length", "10±0.01", "--resistance", "54.4", "--resistance-uncertainty",
          "0.05", "--temperature", "9999"},
         2,
         "--temperature: no thermometer shows \"9999\"; give degrees Celsius; see coilward spool --help"},
        {{"diagnose"},
         2,
         "diagnose: give one of --readings FILE, --jsonl, or a pickup of the history; see coilward diagnose "
         "--help"},
        {{"diagnose", "--readings", COILWARD_SOURCE_DIR "/docs/examples/shorted-turns.json", "--twin", "1"},
         2,
         "diagnose: --twin, --set and --alone go with a pickup of the history; a readings document says it "
         "itself, in \"alike\"; see coilward diagnose --help"},
        {{"diagnose", "--jsonl", "--alone"},
         2,
         "diagnose: --twin, --set and --alone go with a pickup of the history; a readings document says it "
         "itself, in \"alike\"; see coilward diagnose --help"},
        {{"diagnose", "--readings", "/nowhere.json"},
         3,
         "/nowhere.json: cannot be read (No such file or directory); give the path of a readings document, "
         "or - for "
         "standard input"},
        {{"diagnose", "--readings", "/"},
         3,
         "/: cannot be read (a folder); give the path of a readings document, or - for standard input"},
        {{"import", "/nowhere.json"},
         3,
         "/nowhere.json: cannot be read (No such file or directory); give the path of an exported history, "
         "or - "
         "for standard input"},
        {{"diagnose", "neck"},
         3,
         "Neck: nothing was read of it yet; give a readings document with --readings"},
        {{"examine", "neck", "--port", "/dev/null"}, 2, "--meter is required; see coilward examine --help"},
        {{"examine", "neck", "--meter", "dmm-scpi"}, 2, "--port is required; see coilward examine --help"},
        {{"examine", "neck", "--meter", "dmm-scpi", "--meter", "lcr-fetch-ab", "--port", "/dev/null"},
         2,
         "--port: 2 meters and 1 ports; give one --port for each --meter, in the same order; see coilward "
         "examine --help"},
        {{"examine", "neck", "--meter", "no-such", "--port", "/dev/null"},
         2,
         "--meter: there is no driver \"no-such\" in " + drivers + "; there are " + ids_in(drivers) +
             "; see coilward examine --help"},
        {{"examine", "neck", "--meter", "dmm-scpi", "--port", "udp://x"},
         2,
         "--port: port \"udp://x\": expected the path of a device, tcp://HOST:PORT or replay:FILE; see "
         "coilward "
         "examine --help"},
        {{"examine", "neck", "--meter", "dmm-scpi", "--port", "replay:/nowhere.capture"},
         3,
         "/nowhere.capture: this capture cannot be read; check its name"},
        {{"examine", "neck", "--meter", "dmm-scpi", "--port", "/dev/null"},
         1,
         "/dev/null: this is no terminal device; give a serial port, tcp://HOST:PORT or replay:FILE"},
        {{"examine", "neck", "--coil", "slug", "--meter", "dmm-scpi", "--port", "/dev/null"},
         2,
         "--coil: Neck has one coil without a name; leave --coil out; see coilward examine --help"},
        {{"examine", "bare", "--meter", "dmm-scpi", "--port", "/dev/null"},
         2,
         "Bare: it has no coil model yet; say coilward pickup edit 2 --model ID; see coilward examine "
         "--help"},
        {{"examine", "bridge", "--meter", "dmm-scpi", "--port", "/dev/null"},
         2,
         "pickup \"bridge\": " + folder.file().string() +
             " has no such number or name; coilward pickup list shows them; see coilward examine --help"},
        {{"examine", "neck", "--meter", "dmm-scpi", "--port", replay("nobody/noise.capture")},
         1,
         replay("nobody/noise.capture") + ": no reading of dmm-scpi is in this capture; check --meter"},
        {{"history", "bridge"},
         2,
         "pickup \"bridge\": " + folder.file().string() +
             " has no such number or name; coilward pickup list shows them; see coilward history --help"},
    };
    for (const Failure& failure : table) {
        const auto end = coilward(failure.words);
        EXPECT_EQ(end.exit_code, failure.exit_code) << failure.line;
        EXPECT_EQ(end.err, "coilward: " + failure.line + "\n");
        EXPECT_EQ(end.out, "");
    }
}

TEST_F(Coilward, EchoesTheIdOfALineAsItWas) {
    const auto file = folder.path() / "readings.json";
    std::ofstream(file) << R"({"id": 7, "coil_model": "six-rod-42", "readings": []})";
    const auto end = coilward({"diagnose", "--readings", file, "--json"});
    EXPECT_EQ(end.exit_code, 0);
    EXPECT_TRUE(end.out.starts_with("{\"id\":7,\"coil_model\":\"six-rod-42\"")) << end.out;
}

TEST_F(Coilward, EchoesTheIdOfABadLineToo) {
    const auto file = folder.path() / "lines";
    std::ofstream(file) << R"({"id": "a", "coil_model": "six-rod-42"})" << '\n'
                        << R"({"id": 2, "coil_model": "no-such-model", "readings": []})" << '\n'
                        << "{" << '\n'
                        << R"({"id": 2.5, "coil_model": "six-rod-42", "readings": []})" << '\n';
    const auto end = testing::run_program(
        "/bin/sh",
        {"-c", std::string(COILWARD_PROGRAM " --rules " COILWARD_SOURCE_DIR "/rules diagnose --jsonl <") +
                   file.string()});
    EXPECT_EQ(end.exit_code, 0);
    std::istringstream lines(end.out);
    std::string line;
    const auto next = [&] {
        std::getline(lines, line);
        return line;
    };
    EXPECT_THAT(next(), AllOf(StartsWith("{\"line\":1,\"error\":\""), EndsWith("\",\"id\":\"a\"}")));
    EXPECT_EQ(next(),
              "{\"line\":2,\"error\":\"coil_model: \\\"no-such-model\\\" is in no file under rules/coils; "
              "\\\"coilward models\\\" lists those that are\",\"id\":2}");
    EXPECT_THAT(next(), AllOf(StartsWith("{\"line\":3,\"error\":\""), EndsWith("\"}")));
    EXPECT_THAT(next(), StartsWith("{\"id\":2.5,\"coil_model\":\"six-rod-42\""));
}

} // namespace
} // namespace coilward
