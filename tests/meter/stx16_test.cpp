#include "meter/decoder.h"
#include "shipped_driver.h"

#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct Row {
    const char* between_ends; ///< the fourteen characters
    Verdict verdict;
    double value;
};

// Frame: Lutron DM-9962SD manual, p. 17; unit codes: Extech protocol sheets.
TEST(Stx16, ReadsEveryUnitThatTheBenchUses) {
    const std::vector<Row> table{
        {"41390300007352", Verdict::reading, 7352.0},    // kilohm
        {"41380100003521", Verdict::reading, 352.1},     // ohm
        {"41400300001205", Verdict::reading, 1.205e6},   // megohm
        {"41420300004123", Verdict::reading, 4.123},     // H
        {"41410100001234", Verdict::reading, 0.1234},    // mH
        {"41680000000470", Verdict::reading, 470e-6},    // uH
        {"41A40100001123", Verdict::reading, 112.3e-12}, // pF
        {"41181100000123", Verdict::reading, -0.0123},   // mV, negative
        {"41010100000235", Verdict::reading, 23.5},      // degrees Celsius
        {"41020100000743", Verdict::reading, 23.5},      // 74.3 degrees Fahrenheit
        {"42010100000241", Verdict::aside, 0.0},         // the second channel
        {"40260304091000", Verdict::aside, 0.0},         // the clock
        {"41360300001000", Verdict::senseless, 0.0},     // ampere
        {"4139030000735^", Verdict::senseless, 0.0},     // an arrow
        {"31390300007352", Verdict::bad_structure, 0.0}, // version 01
        {"41392300007352", Verdict::bad_structure, 0.0}, // sign 2
        {"41390700007352", Verdict::bad_structure, 0.0}, // seven decimals
    };
    const Driver& driver = shipped_driver("stx16");
    const MeterSetting setting = setting_of(driver, "inductance 1000");
    for (const Row& row : table) {
        const std::string bytes = "\x02" + std::string(row.between_ends) + "\r";
        Frame frame;
        EXPECT_EQ(driver.scan(bytes, setting, frame), 16U) << row.between_ends;
        EXPECT_EQ(name(frame.verdict), name(row.verdict)) << row.between_ends;
        ASSERT_EQ(frame.readings.size(), row.verdict == Verdict::reading ? 1U : 0U) << row.between_ends;
        for (const DecodedReading& each : frame.readings)
            EXPECT_DOUBLE_EQ(*each.reading.value, row.value) << row.between_ends;
    }
}

TEST(Stx16, GivesNoInductanceWithoutItsFrequency) {
    Frame frame;
    shipped_driver("stx16").scan("\x02"
                                 "41420300004123\r",
                                 {}, frame);
    EXPECT_EQ(frame.verdict, Verdict::senseless);
    EXPECT_EQ(frame.note, "at which frequency was it measured? the frame does not say");
}

TEST(Stx16, RestartsAtAFrameThatBeginsInsideAnother) {
    const Driver& driver = shipped_driver("stx16");
    Decoder decoder(driver, {});
    std::vector<Verdict> verdicts;
    decoder.feed("\x02"
                 "4139\x02"
                 "41390300007352\r",
                 [&](const Frame& frame) { verdicts.push_back(frame.verdict); });
    EXPECT_EQ(verdicts, (std::vector{Verdict::too_short, Verdict::reading}));
}

} // namespace
} // namespace coilward
