#include "meter/driver_folder.h"

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <stdlib.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;

/// A folder of drivers that goes away with the test.
class DriverFolder : public testing::Test {
protected:
    DriverFolder() {
        std::string pattern = (fs::temp_directory_path() / "coilward-drivers-XXXXXX").string();
        folder = ::mkdtemp(pattern.data());
    }

    ~DriverFolder() override { fs::remove_all(folder); }

    void write(const std::string& name, const std::string& text) const {
        std::ofstream(folder / name) << text;
    }

    /// Every complaint about bench.toml, with the folder's name left out.
    std::string complaints_about(const std::string& text) const {
        write("bench.toml", text);
        std::string all;
        for (const Complaint& complaint : read_drivers(folder).complaints)
            all += complaint.text() + "\n";
        for (std::size_t at = all.find(folder.string()); at != std::string::npos;
             at = all.find(folder.string()))
            all.erase(at, folder.string().size() + 1);
        return all;
    }

    fs::path folder;
};

const std::string heading = R"(id = "bench"
title = "A bench meter"
status = "draft"
follows = ["a manual, p. 1"]
instruments = ["one"]
[serial]
baud = 9600
source = "the manual, p. 2"
)";

const std::string line = R"([line]
layouts = ["primary"]
)";

const std::string setup = R"([[setup]]
name = "resistance"
gives = ["dc_resistance"]
)";

TEST_F(DriverFolder, ReadsTheLeastThatADriverNeeds) {
    EXPECT_EQ(complaints_about(heading + line + setup), "");
    const auto drivers = load_drivers(folder);
    ASSERT_EQ(drivers.size(), 1U);
    EXPECT_EQ(drivers.front().id, "bench");
    EXPECT_FALSE(drivers.front().poll);
    EXPECT_EQ(drivers.front().serial.data_bits, 8);
}

TEST_F(DriverFolder, NamesTheFileTheLineTheKeyAndWhatWasExpected) {
    EXPECT_EQ(
        complaints_about(heading + line + setup + "frequenzy = 1000\n"),
        "bench.toml:14: setup[0].frequenzy: unknown key, expected one of by_hand, circuit, commands, "
        "frequency, "
        "frequency_range, function_names, gives, name, range_limit, settle_ms; did you mean \"frequency\"?\n"
        "  frequenzy = 1000\n"
        "  ^\n");
}

TEST_F(DriverFolder, RefusesALayoutWithAnUnknownField) {
    EXPECT_EQ(
        complaints_about(heading + "[line]\nlayouts = [\"first, status\"]\n" + setup),
        "bench.toml:10: line.layouts: found field \"first\", expected primary, secondary, third, fourth, "
        "primary..., status, state, key, unit, bin, integer, number TAG or text, each with a ? where it may "
        "be absent\n"
        "  layouts = [\"first, status\"]\n"
        "            ^\n");
}

TEST_F(DriverFolder, RefusesALayoutWithoutAValueOrWithAGap) {
    EXPECT_EQ(
        complaints_about(heading + "[line]\nlayouts = [\"status\", \"primary?, status\"]\n" + setup),
        "bench.toml:10: line.layouts: found no value in this layout, expected \"primary\" in it\n"
        "  layouts = [\"status\", \"primary?, status\"]\n"
        "            ^\n"
        "bench.toml:10: line.layouts: found a field behind an optional one, expected optional fields last\n"
        "  layouts = [\"status\", \"primary?, status\"]\n"
        "            ^\n");
}

TEST_F(DriverFolder, RefusesAQuantityThatNobodyMeasures) {
    EXPECT_EQ(complaints_about(heading + line + "[[setup]]\nname = \"x\"\ngives = [\"loudness\"]\n"),
              "bench.toml:13: setup[0].gives: found \"loudness\", expected quantities as \"inductance\" "
              "(docs/drivers.md lists them)\n"
              "  gives = [\"loudness\"]\n"
              "          ^\n");
}

TEST_F(DriverFolder, WantsAFrequencyWhereTheQuantityDependsOnOne) {
    EXPECT_EQ(complaints_about(heading + line + "[[setup]]\nname = \"x\"\ngives = [\"inductance\"]\n"),
              "bench.toml:11: setup[0].frequency: missing, expected the frequency of the test signal (or "
              "frequency_range = [low, high]; or \"not stated\" where the maker does not tell)\n"
              "  [[setup]]\n"
              "  ^\n");
}

TEST_F(DriverFolder, TakesAFrequencyThatTheMakerDoesNotState) {
    const std::string capacitance = "[[setup]]\nname = \"x\"\ngives = [\"capacitance\"]\n";
    EXPECT_EQ(complaints_about(heading + line + capacitance + "frequency = \"not stated\"\n"), "");
    EXPECT_EQ(
        complaints_about(heading + line + capacitance + "frequency = \"unknown\"\n"),
        "bench.toml:14: setup[0].frequency: found text, expected hertz, more than 0 and at most 100000000\n"
        "  frequency = \"unknown\"\n"
        "              ^\n");
}

TEST_F(DriverFolder, TakesCommandsWithoutAnEndAndGapsInWords) {
    const std::string gaps = "gaps = [\"how it shows overload\"]\n";
    EXPECT_EQ(complaints_about(gaps + heading + "[commands]\nend = \"none\"\n" + line + setup), "");
    const auto drivers = load_drivers(folder);
    ASSERT_EQ(drivers.size(), 1U);
    EXPECT_EQ(drivers.front().command_end, "");
    EXPECT_EQ(drivers.front().gaps, (std::vector<std::string>{"how it shows overload"}));
}

TEST_F(DriverFolder, SaysWhichChecksAFrameMayHave) {
    EXPECT_EQ(complaints_about(heading + "[frame]\nlongest = 16\ncheck = \"parity\"\n" + setup),
              "bench.toml:11: frame.check: found \"parity\", expected \"structure\" or \"none\"\n"
              "  check = \"parity\"\n"
              "          ^\n"
              "bench.toml:9: frame: expected drivers/bench.cpp beside this file when the program was built\n"
              "  [frame]\n"
              "  ^\n");
}

TEST_F(DriverFolder, WantsExactlyOneProtocol) {
    const std::string expected =
        "bench.toml:1: line: expected one of two tables: [line] for lines of text, [frame] for other frames\n"
        "  id = \"bench\"\n"
        "  ^\n";
    EXPECT_EQ(complaints_about(heading + setup), expected);
}

TEST_F(DriverFolder, WantsTheCodeOfAFrameProtocol) {
    EXPECT_EQ(complaints_about(heading + "[frame]\nlongest = 16\n" + setup),
              "bench.toml:9: frame: expected drivers/bench.cpp beside this file when the program was built\n"
              "  [frame]\n"
              "  ^\n");
}

TEST_F(DriverFolder, HoldsTheFileToItsName) {
    std::string other = heading + line + setup;
    other.replace(other.find("\"bench\""), 7, "\"desk\"");
    EXPECT_EQ(complaints_about(other),
              "bench.toml:1: id: found \"desk\", expected \"bench\", as the file is named\n"
              "  id = \"desk\"\n"
              "       ^\n");
}

TEST_F(DriverFolder, SaysWhichWordsAStatusMayHave) {
    EXPECT_EQ(complaints_about(heading + line + "[[line.status]]\ncode = 1\nmeaning = \"bad\"\n" + setup),
              "bench.toml:13: line.status[0].meaning: found \"bad\", expected \"ok\" or \"over_range\" or "
              "\"under_range\" or \"no_data\" or \"fault\"\n"
              "  meaning = \"bad\"\n"
              "            ^\n");
}

TEST_F(DriverFolder, RefusesAUnitOrANameThatBelongsToNoValue) {
    EXPECT_EQ(complaints_about(heading +
                               "[line]\nlayouts = [\"primary, status, unit\", \"key, status, primary\"]\n" +
                               setup),
              "bench.toml:10: line.layouts: found \"unit\" without a value before it\n"
              "  layouts = [\"primary, status, unit\", \"key, status, primary\"]\n"
              "            ^\n"
              "bench.toml:10: line.layouts: found a field between \"key\" and its value, expected the value\n"
              "  layouts = [\"primary, status, unit\", \"key, status, primary\"]\n"
              "            ^\n");
}

TEST_F(DriverFolder, RefusesNumbersThatMustAndMustNotHaveAPart) {
    EXPECT_EQ(
        complaints_about(heading + line +
                         "exponent_required = true\nexponent_forbidden = true\n"
                         "sign_required = true\nsign_forbidden = true\n" +
                         setup),
        "bench.toml:12: line.exponent_forbidden: expected \"exponent_required\" or \"exponent_forbidden\", "
        "not both\n"
        "  exponent_forbidden = true\n"
        "                       ^\n"
        "bench.toml:14: line.sign_forbidden: expected \"sign_required\" or \"sign_forbidden\", not both\n"
        "  sign_forbidden = true\n"
        "                   ^\n");
}

TEST_F(DriverFolder, RefusesAFormInWhichNoNumberCanBeWritten) {
    EXPECT_EQ(complaints_about(heading + line + "numbers = [\"SD.DDDESDD\", \"six digits\"]\n" + setup),
              "bench.toml:11: line.numbers: found \"six digits\", expected the layout of a number, as "
              "SD.DDDDDESDD (S a sign, s a minus or nothing, D a digit, # any number of them)\n"
              "  numbers = [\"SD.DDDESDD\", \"six digits\"]\n"
              "            ^\n");
}

TEST_F(DriverFolder, RefusesAUnitThatIsOursAndNotOurs) {
    EXPECT_EQ(complaints_about(heading + line +
                               "[[line.units]]\ntext = \"V AC\"\nquantity = \"dc_voltage\"\n"
                               "not_ours = \"volts AC\"\n" +
                               setup),
              "bench.toml:14: line.units[0].not_ours: expected \"quantity\" or \"not_ours\", not both\n"
              "  not_ours = \"volts AC\"\n"
              "             ^\n");
}

TEST_F(DriverFolder, RefusesAWordInPlaceOfANumberThatSaysAllIsWell) {
    EXPECT_EQ(
        complaints_about(heading + line + "[[line.words]]\ntext = \"GOOD\"\nmeaning = \"ok\"\n" + setup),
        "bench.toml:13: line.words[0].meaning: found \"ok\", expected what the word says in place of a "
        "number\n"
        "  meaning = \"ok\"\n"
        "            ^\n");
}

TEST_F(DriverFolder, WantsAnAnswerWhereCommandsCanBeRefused) {
    EXPECT_EQ(
        complaints_about(heading + "[commands]\nrefusal = [\"ERR*\"]\n" + line + setup),
        "bench.toml:9: commands.answer: missing, expected how the meter answers a command that it accepts\n"
        "  [commands]\n"
        "  ^\n");
}

TEST_F(DriverFolder, SaysWhereItIsNoToml) {
    EXPECT_EQ(complaints_about("id = \n").substr(0, 35), "bench.toml:1: this is not TOML: Err");
}

TEST_F(DriverFolder, UsesTheGoodDriversAndNamesTheBadOnes) {
    write("good.toml", "id = \"good\"\n" + heading.substr(heading.find('\n') + 1) + line + setup);
    complaints_about(heading + setup);
    const LoadedDrivers loaded = read_drivers(folder);
    ASSERT_EQ(loaded.drivers.size(), 1U);
    EXPECT_EQ(loaded.drivers.front().id, "good");
    EXPECT_EQ(loaded.complaints.size(), 1U);
    EXPECT_THROW(load_drivers(folder), BadDrivers);
}

TEST_F(DriverFolder, ComplainsOfAFolderThatIsNotThereOrEmpty) {
    const auto missing = read_drivers(folder / "nowhere");
    ASSERT_EQ(missing.complaints.size(), 1U);
    EXPECT_EQ(
        missing.complaints.front().text(),
        (folder / "nowhere").string() +
            ": this folder of drivers cannot be read: No such file or directory; name it with --drivers");
    const auto empty = read_drivers(folder);
    ASSERT_EQ(empty.complaints.size(), 1U);
    EXPECT_EQ(empty.complaints.front().text(),
              folder.string() + ": there is no driver (*.toml) in this folder");
}

} // namespace
} // namespace coilward
