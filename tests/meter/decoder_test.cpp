#include "meter/decoder.h"
#include "shipped_driver.h"

#include <random>
#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// The values of the frames that these bytes complete.
std::vector<double> values_of(Decoder& decoder, std::string_view bytes) {
    std::vector<double> values;
    decoder.feed(bytes, [&](const Frame& frame) {
        for (const DecodedReading& each : frame.readings)
            values.push_back(each.reading.value.value_or(-1.0));
    });
    return values;
}

/// Where only the counts matter.
void ignore(const Frame&) {}

Decoder resistance_decoder() {
    const Driver& driver = shipped_driver("dmm-scpi");
    return Decoder(driver, setting_of(driver, "dc_resistance"));
}

TEST(Decoder, TrustsNoLineWhoseBeginningMayBeMissing) {
    Decoder opened_in_the_middle = resistance_decoder();
    EXPECT_EQ(values_of(opened_in_the_middle, "1.12000000E+03\n+6.11200000E+03\n"),
              (std::vector<double>{6112.0}));
    EXPECT_EQ(opened_in_the_middle.counts().pieces(Verdict::no_start), 1U);
    Decoder asked = resistance_decoder();
    asked.begin_frame("READ?");
    EXPECT_EQ(values_of(asked, "+1.12000000E+03\n+6.11200000E+03\n"), (std::vector<double>{1120.0, 6112.0}));
}

TEST(Decoder, ReadsNoNumberThatLostADigitOnTheWay) {
    Decoder decoder = resistance_decoder();
    decoder.begin_frame("READ?");
    EXPECT_EQ(values_of(decoder, "+6.1120000E+03\n"), std::vector<double>{})
        << "nor before the first whole one";
    EXPECT_EQ(values_of(decoder, "+6.11200000E+03\n+6.1120000E+03\n+6.11300000E+03\n"),
              (std::vector<double>{6112.0, 6113.0}));
    EXPECT_EQ(decoder.counts().pieces(Verdict::bad_structure), 2U);
}

TEST(Decoder, BelievesAMeterThatHoldsToDigitsOfItsOwn) {
    Decoder decoder = resistance_decoder();
    decoder.begin_frame("READ?");
    EXPECT_EQ(values_of(decoder, "+6.1120E+03\n+6.1130E+03\n+6.1140E+03\n-6.1150E+03\n+6.150E+03\n"),
              (std::vector<double>{6114.0, -6115.0}));
}

TEST(Decoder, CountsWhatANewQuestionCutsOff) {
    Decoder decoder = resistance_decoder();
    decoder.begin_frame("READ?");
    decoder.feed("+6.1", ignore);
    EXPECT_TRUE(decoder.is_mid_frame());
    decoder.begin_frame("READ?");
    EXPECT_FALSE(decoder.is_mid_frame());
    EXPECT_EQ(decoder.counts().pieces(Verdict::too_short), 1U);
    EXPECT_EQ(decoder.counts().bytes(Verdict::too_short), 4U);
    EXPECT_EQ(values_of(decoder, "+6.11200000E+03\r\n"), (std::vector<double>{6112.0}));
}

TEST(Decoder, TakesAnEchoForNeitherReadingNorDamage) {
    Decoder decoder = resistance_decoder();
    decoder.begin_frame("READ?");
    EXPECT_EQ(values_of(decoder, "READ?\r\n+6.11200000E+03\r\n"), (std::vector<double>{6112.0}));
    EXPECT_EQ(decoder.counts().bytes_that_are_no_reading(), 0U);
    decoder.feed("READ!\r\n", ignore);
    EXPECT_EQ(decoder.counts().bytes_that_are_no_reading(), 5U);
}

TEST(Decoder, CountsTheSameHoweverTheBytesAreCut) {
    std::mt19937 random(7);
    std::string stream;
    for (int i = 0; i < 300; ++i) {
        stream += "+6.11200000E+03\r\n";
        for (std::size_t noise = random() % 300; noise > 200; --noise)
            stream += static_cast<char>(random());
    }
    Decoder whole = resistance_decoder();
    whole.feed(stream, ignore);
    Decoder cut = resistance_decoder();
    for (std::size_t at = 0; at < stream.size();) {
        const std::size_t piece = 1 + random() % 40;
        cut.feed(std::string_view(stream).substr(at, piece), ignore);
        at += piece;
    }
    for (const Verdict verdict : {Verdict::reading, Verdict::aside, Verdict::too_short, Verdict::no_start,
                                  Verdict::bad_structure, Verdict::senseless}) {
        EXPECT_EQ(cut.counts().pieces(verdict), whole.counts().pieces(verdict)) << name(verdict);
        EXPECT_EQ(cut.counts().bytes(verdict), whole.counts().bytes(verdict)) << name(verdict);
    }
    EXPECT_GT(whole.counts().pieces(Verdict::reading), 100U);
}

TEST(Decoder, LeavesNoByteUncounted) {
    std::mt19937 random(11);
    std::string noise(100'000, '\0');
    for (char& byte : noise)
        byte = static_cast<char>(random());
    noise += '\n';
    for (const char* id : {"dmm-scpi", "lcr-fetch-ab", "stx16"}) {
        const Driver& driver = shipped_driver(id);
        Decoder decoder(driver, setting_for(driver.setups.front(), {}));
        decoder.feed(noise, ignore);
        const VerdictCounts& counts = decoder.counts();
        const std::size_t counted = counts.bytes_that_are_no_reading() + counts.bytes(Verdict::aside) +
                                    counts.bytes(Verdict::reading);
        EXPECT_LE(noise.size() - counted, driver.longest_frame) << id;
    }
}

TEST(Decoder, DropsALineWithoutEndAndFindsTheNext) {
    Decoder decoder = resistance_decoder();
    decoder.begin_frame();
    decoder.feed(std::string(1'000'000, '7'), ignore);
    EXPECT_GT(decoder.counts().pieces(Verdict::bad_structure), 0U);
    // The end of that line, however much like a number.
    EXPECT_TRUE(values_of(decoder, ".5E+00\n").empty());
    EXPECT_EQ(values_of(decoder, "+6.11200000E+03\n"), (std::vector<double>{6112.0}));
}

std::size_t scan_pairs(std::string_view buffer, const MeterSetting&, Frame& into) {
    if (buffer.size() < 2) return 0;
    into.verdict = Verdict::reading;
    into.readings.emplace_back().reading.value = buffer[0] - '0';
    return 2;
}

TEST(Decoder, WaitsForTheRepetitionThatAMeterPromises) {
    Driver driver;
    driver.scan = scan_pairs;
    driver.longest_frame = 2;
    driver.repeats = 2;
    Decoder decoder(driver);
    // Half of a pair at the beginning; one measurement whose two frames differ.
    EXPECT_EQ(values_of(decoder, "1;2;2;3;4;5;5;5;5;"), (std::vector<double>{2.0, 5.0, 5.0}));
}

} // namespace
} // namespace coilward
