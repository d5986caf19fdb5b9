#include "cli/program_run.h"
#include "cli/running_program.h"
#include "meter/driver_folder.h"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using testing::Coilward;
using ::testing::HasSubstr;
using testing::RunningProgram;

const std::string drivers = COILWARD_SOURCE_DIR "/drivers";

class Simulating : public Coilward {
protected:
    static std::vector<std::string> words(std::vector<std::string> of_command) {
        of_command.insert(of_command.begin(), "simulate");
        of_command.insert(of_command.end(), {"--rules", COILWARD_SOURCE_DIR "/rules", "--drivers", drivers});
        return of_command;
    }

    /// The last reading of so many.
    nlohmann::json watched(const std::string& meter, const std::string& port, const char* count = "1") const {
        const auto end = coilward({"watch", "--meter", meter, "--port", port, "--count", count, "--json"});
        EXPECT_EQ(end.exit_code, 0) << meter << ": " << end.err;
        const std::size_t last = end.out.rfind('\n', end.out.size() - 2);
        return nlohmann::json::parse(last == std::string::npos ? end.out : end.out.substr(last + 1), nullptr,
                                     false);
    }
};

TEST_F(Simulating, PutsEveryDriverOnAPort) {
    for (const Driver& driver : load_drivers(drivers)) {
        // Two that measure capacitances only get one: that of the winding to the frame.
        const char* probes =
            driver.setups.front().gives.front() == Quantity::capacitance ? "start-frame" : "leads";
        RunningProgram meter(COILWARD_PROGRAM,
                             words({"--meter", driver.id, "--coil", "six-rod-42", "--probes", probes}));
        const auto reading = watched(driver.id, meter.line());
        EXPECT_TRUE(reading.contains("value")) << driver.id << ": " << reading;
        EXPECT_EQ(meter.interrupt(), 0);
    }
}

TEST_F(Simulating, TurnsTheKnobOfAMeterThatIsSetByHand) {
    RunningProgram meter(COILWARD_PROGRAM, words({"--meter", "stx16", "--coil", "six-rod-42", "--measure",
                                                  "inductance 1000", "--noise", "0"}));
    const auto end = coilward({"watch", "--meter", "stx16", "--measure", "inductance 1000", "--port",
                               meter.line(), "--count", "1", "--json"});
    const auto reading = nlohmann::json::parse(end.out, nullptr, false);
    EXPECT_EQ(reading["unit"], "H") << end.err;
    EXPECT_GT(reading["value"].get<double>(), 2.10); // the model's range
    EXPECT_LT(reading["value"].get<double>(), 2.62);
}

TEST_F(Simulating, HasTheFaultThatItIsTold) {
    const auto resistance = [&](std::vector<std::string> fault) {
        fault.insert(fault.end(),
                     {"--meter", "dmm-scpi", "--coil", "six-rod-42", "--on", "tcp", "--noise", "0"});
        RunningProgram meter(COILWARD_PROGRAM, words(fault));
        const std::string port = meter.line();
        EXPECT_THAT(port, ::testing::StartsWith("tcp://127.0.0.1:"));
        return watched("dmm-scpi", port)["value"].get<double>();
    };
    const double healthy = resistance({});
    EXPECT_GT(healthy, 5700.0); // the model's range
    EXPECT_LT(healthy, 6600.0);
    // A twentieth of the turns bridged by (nearly) nothing is a twentieth of the wire; a joint adds its ohms.
    EXPECT_NEAR(resistance({"--fault", "shorted-turns", "--severity", "shorted_fraction=0.05", "--severity",
                            "bridge_resistance=0.001"}),
                0.95 * healthy, 0.05);
    EXPECT_NEAR(resistance({"--fault", "partial-break", "--severity", "series_resistance=1000"}),
                healthy + 1000.0, 0.05);
}

TEST_F(Simulating, IsUnpluggedAndComesBackWhileItIsWatched) {
    RunningProgram meter(COILWARD_PROGRAM, words({"--meter", "dmm-scpi", "--coil", "six-rod-42",
                                                  "--unplug-every", "0.6", "--noise", "0"}));
    const std::string port = meter.line();
    const auto end = coilward({"watch", "--meter", "dmm-scpi", "--port", port, "--count", "20"});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    EXPECT_EQ(std::ranges::count(end.out, '\n'), 20);
    EXPECT_THAT(end.err, HasSubstr("coilward: " + port +
                                   ": unplugged; it goes on by itself when the meter is back\ncoilward: " +
                                   port + ": back\n"));
}

TEST_F(Simulating, SendsGarbageWhereItIsToldTo) {
    RunningProgram meter(COILWARD_PROGRAM,
                         words({"--meter", "lcr-fetch-ab", "--coil", "six-rod-42", "--garbage", "0.02"}));
    const auto end =
        coilward({"watch", "--meter", "lcr-fetch-ab", "--port", meter.line(), "--count", "20", "--json"});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    EXPECT_THAT(end.err, Not(HasSubstr("no reading: 0")));
}

TEST_F(Simulating, SaysWhatCannotBeSimulated) {
    struct Row {
        std::vector<std::string> words;
        std::string line;
    };

    const std::vector<Row> table{
        {{"--meter", "dmm-scpi", "--coil", "six-rod-42", "--measure", "inductance"},
         "--measure: dmm-scpi cannot measure inductance"},
        {{"--meter", "dmm-scpi", "--coil", "six-rod-42", "--measure", "ohms"},
         "--measure: \"ohms\": expected a quantity, and where they matter a circuit and a frequency in Hz, "
         "as "
         "\"inductance series 1000\""},
        {{"--meter", "dmm-scpi", "--coil", "no-such"},
         "--coil: there is no coil model \"no-such\"; coilward models lists them"},
        {{"--meter", "dmm-scpi", "--coil", "six-rod-42", "--fault", "unexplained"},
         "--severity: unexplained is whatever nobody listed: no circuit stands for it"},
        {{"--meter", "dmm-scpi", "--coil", "six-rod-42", "--severity", "shorted_fraction=0.1"},
         "--severity: healthy has no severity \"shorted_fraction\"; it has none"},
        {{"--meter", "dmm-scpi", "--coil", "six-rod-42", "--fault", "shorted-turns", "--severity",
          "shorted_fraction=2"},
         "--severity: shorted_fraction = 2 is impossible; expected a number above 0, up to 0.99"},
        {{"--meter", "dmm-scpi", "--coil", "six-rod-42", "--severity", "much"},
         "--severity: \"much\": expected NAME=VALUE, as shorted_fraction=0.03"},
    };
    for (const Row& row : table) {
        const auto end = testing::run_program(COILWARD_PROGRAM, words(row.words));
        EXPECT_EQ(end.exit_code, 2);
        EXPECT_EQ(end.err, "coilward: " + row.line + "; see coilward simulate --help\n");
    }
}

} // namespace
} // namespace coilward
