#include "bench/capture.h"
#include "bench/capture_bytes.h"

#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

const std::string heading = "coilward capture 1\n"
                            "driver: lcr-fetch-ab\n"
                            "title: one coil\n"
                            "began: 2026-03-02T09:00:00.000Z\n"
                            "provenance: invented\n";

TEST(Capture, IsReadWithBothDirectionsAndTheirTimes) {
    const Capture capture = capture_from_text(heading + "provenance: a second line\n"
                                                        "request: inductance series 1000\n"
                                                        "starts: mid-frame\n"
                                                        "display: Ls 4.12345 H\n"
                                                        "\n# a comment\n"
                                                        "+0 > \"FETC?\\n\"\n"
                                                        "+112 < 2B 31 0a\n"
                                                        "+5000 ! unplugged\n",
                                              "one.capture");
    EXPECT_EQ(capture.driver, "lcr-fetch-ab");
    EXPECT_EQ(capture.provenance, "invented\na second line");
    EXPECT_EQ(capture.request->frequency_hz, 1000.0);
    EXPECT_TRUE(capture.starts_mid_frame);
    EXPECT_EQ(capture.also.at("display"), "Ls 4.12345 H");
    ASSERT_EQ(capture.events.size(), 3U);
    EXPECT_EQ(capture.events[0].bytes, "FETC?\n");
    EXPECT_EQ(capture.events[1].bytes, "+1\n");
    EXPECT_EQ(capture.events[1].at.count(), 112);
    EXPECT_EQ(capture.events[2].kind, CaptureEvent::Kind::unplugged);
}

struct Damage {
    std::string text;
    std::string complaint;
};

TEST(Capture, SaysWhatIsWrongAndWhere) {
    const std::vector<Damage> table{
        {"", "x.capture:1: the file is empty, expected \"coilward capture 1\""},
        {"hello\n", "x.capture:1: found \"hello\", expected \"coilward capture 1\" in the first line"},
        {"coilward capture 1\ntitle: no driver\n",
         "x.capture:2: the capture ended without \"driver:\", which it needs"},
        {"coilward capture 1\ndriver: a\ntitle: b\nbegan: yesterday\n",
         "x.capture:4: found \"yesterday\", expected a moment as 2026-03-02T10:00:00.000Z"},
        {heading + "request: loudness\n", "x.capture:6: found \"loudness\", expected a quantity, and where "
                                          "they matter a circuit, a frequency in Hz and the "
                                          "points, as \"inductance series 1000\""},
        {heading + "colour: red\n",
         "x.capture:6: found \"colour: red\", expected driver, title, began, request, provenance, "
         "\"starts: mid-frame\", display, by, instrument, serial, note"},
        {heading + "nonsense\n", "x.capture:6: found \"nonsense\", expected \"KEY: TEXT\", a line that "
                                 "begins with +MS, or # and a comment"},
        {heading + "non\x01sense\n",
         "x.capture:6: found \"non\uFFFDsense\", expected \"KEY: TEXT\", a line that "
         "begins with +MS, or # and a comment"},
        {heading + "+0 < \"A\"\nnote: late\n",
         "x.capture:7: found a heading behind the first event, expected headings first"},
        {heading + "+soon < \"A\"\n",
         "x.capture:6: found time \"+soon\", expected milliseconds since the capture began, as +250"},
        {heading + "+9223372036854775807 < \"A\"\n", "x.capture:6: found time \"+9223372036854775807\", "
                                                     "expected milliseconds since the capture began, as "
                                                     "+250"},
        {heading + "+5 < \"A\"\n+4 < \"B\"\n",
         "x.capture:7: found time +4 behind +5, expected times that never go back"},
        {heading + "+0 = \"A\"\n",
         "x.capture:6: found \"+0 = \"A\"\", expected +MS > BYTES, +MS < BYTES or +MS ! unplugged"},
        {heading + "+0 < \"A\n", "x.capture:6: found \"A, expected text in quotation marks (with \\r \\n \\t "
                                 "\\\" \\\\ \\xNN) or hexadecimal bytes "
                                 "parted by one blank, as 02 34 0D"},
        {heading + "+0 ! dropped\n", "x.capture:6: found \"! dropped\", expected \"! unplugged\""},
        {heading + "+0 ! unplugged\n+1 < \"A\"\n",
         "x.capture:7: found a line behind \"! unplugged\", expected the end of the capture"},
    };
    for (const Damage& each : table) {
        try {
            capture_from_text(each.text, "x.capture");
            ADD_FAILURE() << "accepted: " << each.text;
        } catch (const BadCapture& error) {
            EXPECT_EQ(error.what(), each.complaint);
        }
    }
}

TEST(Capture, EndsItsLinesWithAnyNumberOfCarriageReturns) {
    const Capture capture = capture_from_text(heading + "display: 6.112 kohm\r\r\n", "x.capture");
    EXPECT_EQ(capture.also.at("display"), "6.112 kohm");
}

TEST(Capture, SaysWhichFileCannotBeRead) {
    try {
        read_capture("/nowhere/at-all.capture");
        ADD_FAILURE();
    } catch (const BadCapture& error) {
        EXPECT_STREQ(error.what(), "/nowhere/at-all.capture: this capture cannot be read; check its name");
    }
}

TEST(CaptureBytes, AreTextWhereTheyCanBeReadAndHexadecimalWhereNot) {
    const std::vector<std::pair<std::string, std::string>> table{
        {"+4.1E+00\r\n", R"("+4.1E+00\r\n")"},
        {"a\"b\\c\td", R"("a\"b\\c\td")"},
        {std::string("\x02"
                     "41390300007352\r"),
         R"("\x0241390300007352\r")"},
        {std::string("\x00\xFF\x80", 3), "00 FF 80"},
    };
    for (const auto& [bytes, text] : table) {
        EXPECT_EQ(shown_bytes(bytes), text);
        EXPECT_EQ(bytes_from_text(text), bytes);
    }
    for (const char* text :
         {"", "\"", "\"\"", "\"a", "\"a\"b", "\"\\q\"", "\"\\x4\"", "4", "41  42", "4G", "41 "})
        EXPECT_FALSE(bytes_from_text(text)) << text;
}

TEST(CaptureBytes, KeepEveryByte) {
    std::string all;
    for (int byte = 0; byte < 256; ++byte)
        all += static_cast<char>(byte);
    EXPECT_EQ(bytes_from_text(shown_bytes(all)), all);
    for (const char byte : all)
        EXPECT_EQ(bytes_from_text(shown_bytes({&byte, 1})), std::string(1, byte));
}

} // namespace
} // namespace coilward
