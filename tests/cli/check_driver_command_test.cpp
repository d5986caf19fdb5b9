#include "cli/program_run.h"

#include <filesystem>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>

namespace coilward {
namespace {

using testing::Coilward;
using ::testing::HasSubstr;

const std::string drivers = COILWARD_SOURCE_DIR "/drivers/";
const std::string captures = COILWARD_SOURCE_DIR "/captures/";

std::string text_of_file(const std::string& file) {
    std::ostringstream text;
    text << std::ifstream(file).rdbuf();
    return text.str();
}

TEST_F(Coilward, ChecksADriverAgainstItsCaptures) {
    const auto end =
        coilward({"check-driver", drivers + "stx16.toml", "--capture", captures + "stx16/steady.capture",
                  "--capture", captures + "stx16/cut-mid-frame.capture"});
    EXPECT_EQ(end.exit_code, 0);
    EXPECT_EQ(end.err, "");
    EXPECT_THAT(end.out, HasSubstr(drivers + "stx16.toml: nothing to complain of; stx16, checked\n"
                                             "2026-03-04T09:00:00.000Z  DC resistance: 7.35200 kΩ\n"));
    EXPECT_THAT(end.out, HasSubstr(captures + "stx16/steady.expected.jsonl: all 3 readings as expected\n"));
    EXPECT_THAT(end.out, HasSubstr(captures + "stx16/cut-mid-frame.capture: 2 readings; bytes that were no "
                                              "reading: 20 (too_short 2, no_start 1)\n"));
}

TEST_F(Coilward, SaysEveryComplaintAboutADriverWithItsLine) {
    const auto file = (folder.path() / "dmm-scpi.toml").string();
    std::string text = text_of_file(drivers + "dmm-scpi.toml");
    text.replace(text.find("baud = 9600"), 11, "baud = -1\nspeed = 3");
    std::ofstream(file) << text;
    const auto end = coilward({"check-driver", file});
    EXPECT_EQ(end.exit_code, 3);
    EXPECT_EQ(end.err, "coilward: " + file + ": 2 to put right; see the list above\n");
    EXPECT_THAT(end.out, HasSubstr(file + ":"));
    EXPECT_THAT(end.out, HasSubstr("serial.baud"));
    EXPECT_THAT(end.out, HasSubstr("serial.speed"));
}

TEST_F(Coilward, SaysWhereTheReadingsAreOthersThanExpected) {
    const auto capture = (folder.path() / "steady.capture").string();
    const auto expected = (folder.path() / "steady.expected.jsonl").string();
    std::filesystem::copy_file(captures + "stx16/steady.capture", capture);
    std::string text = text_of_file(captures + "stx16/steady.expected.jsonl");
    text.replace(text.find("7353"), 4, "7354");
    std::ofstream(expected) << text;
    const auto end = coilward({"check-driver", drivers + "stx16.toml", "--capture", capture});
    EXPECT_EQ(end.exit_code, 3);
    EXPECT_THAT(
        end.out,
        HasSubstr(expected +
                  R"(:3: expected {"quantity":"dc_resistance","between":"leads","value":7354.0,"unit":"ohm"})"
                  "\n  but the driver reads "
                  R"({"quantity":"dc_resistance","between":"leads","value":7353.0,"unit":"ohm"})"
                  "\n"));
    EXPECT_EQ(end.err, "coilward: " + drivers +
                           "stx16.toml: 1 of 1 captures give other readings than expected, shown above; put "
                           "the driver or the expected readings right\n");
}

TEST_F(Coilward, ChecksADriverThatSomebodyWrote) {
    // The whole driver of docs/drivers.md, in a folder of its own.
    const std::string page = text_of_file(COILWARD_SOURCE_DIR "/docs/drivers.md");
    const std::size_t begin = page.find("```toml\n") + 8;
    const auto file = folder.path() / "example-ohm.toml";
    std::ofstream(file) << page.substr(begin, page.find("```", begin) - begin);
    const auto capture = folder.path() / "mine.capture";
    std::ofstream(capture) << "coilward capture 1\ndriver: example-ohm\ntitle: invented\n"
                              "began: 2026-03-02T10:00:00.000Z\nprovenance: invented\n"
                              "+0 > \"MEAS?\"\n+100 < \"+6.112E+03,+2.15E+01,0\\r\\n\"\n";
    const auto end = coilward({"check-driver", file, "--capture", capture});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    EXPECT_THAT(end.out, HasSubstr("  DC resistance: 6.11200 kΩ\n"));
    EXPECT_THAT(end.out, HasSubstr("  temperature: 21.5000 °C\n"));
    EXPECT_THAT(end.out, HasSubstr("mine.expected.jsonl: no such file; write into it what the display "
                                   "showed, one reading a line\n"));
}

} // namespace
} // namespace coilward
