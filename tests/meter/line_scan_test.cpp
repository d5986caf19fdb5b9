#include "meter/line_scan.h"
#include "shipped_driver.h"

#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

Frame judge_line(std::string_view line, const LineProtocol& protocol, const MeterSetting& setting) {
    LineRoom room;
    Frame frame;
    judge_line(line, protocol, setting, room, frame);
    return frame;
}

Frame judged(const char* driver_id, const char* request, const char* line) {
    const Driver& driver = shipped_driver(driver_id);
    return judge_line(line, *driver.line, setting_of(driver, request));
}

struct Row {
    const char* line;
    Verdict verdict;
};

// Layout and status codes: Keysight E4980A/AL user's guide, p. 261 and 265; code 2: Eucol U2829 manual,
// p. 92.
TEST(LineScan, JudgesEveryKindOfLcrReply) {
    const std::vector<Row> table{
        {"+4.12345E+00,+2.34567E+00,+0", Verdict::reading},
        {"+4.12345E+00,+2.34567E+00,+0,+10", Verdict::reading},
        {" +4.12345E+00 , +2.34567E+00 , +0 ", Verdict::reading},
        {"+9.90000E+37,+9.90000E+37,+1", Verdict::reading}, // over range is a reading
        {"+9.90000E+37,+9.90000E+37,-1", Verdict::not_live},
        {"+9.90000E+37,+9.90000E+37,+2", Verdict::senseless},
        {"+4.12345E+00,+2.34567E+00,+9", Verdict::senseless}, // a status that nobody documents
        {"+4.12345E+25,+2.34567E+00,+0", Verdict::senseless}, // nothing has that inductance
        {"", Verdict::aside},
        {"+4.12345E+00,+2.34567E+00", Verdict::too_short},
        {"+4.123", Verdict::too_short},
        {"+4.12345E+00,+2.34567E+00,+0,+1,+5", Verdict::bad_structure},
        {"4.12345E+00,+2.34567E+00,+0", Verdict::bad_structure}, // the sign is always there
        {"+4.12345,+2.34567,+0", Verdict::bad_structure},        // and the exponent
        {"+4.12345E+00,+2.34567E+00,+0.5", Verdict::bad_structure},
        {"+4.12345E+00,+2.34567E+00,OK", Verdict::bad_structure},
        {"+4.12345E+00\x81,+2.34567E+00,+0", Verdict::bad_structure},
    };
    for (const Row& row : table)
        EXPECT_EQ(name(judged("lcr-fetch-ab", "inductance series 1000", row.line).verdict), name(row.verdict))
            << row.line;
}

TEST(LineScan, KeepsWhatAPersonShouldKnowBesideARealValue) {
    const Frame frame = judged("lcr-fetch-ab", "inductance series 1000", "+4.12345E+00,+2.34567E+00,+3");
    EXPECT_EQ(frame.note, "the meter's signal source is overloaded");
    EXPECT_EQ(frame.readings.front().reading.value, 4.12345);
}

TEST(LineScan, GivesBothNumbersInTheirCircuitAtTheirFrequency) {
    const Frame frame = judged("lcr-fetch-ab", "inductance series 120", "+2.40600E+00,+6.13200E+03,+0");
    ASSERT_EQ(frame.readings.size(), 2U);
    const Reading& inductance = frame.readings[0].reading;
    const Reading& resistance = frame.readings[1].reading;
    EXPECT_EQ(inductance.quantity, Quantity::inductance);
    EXPECT_EQ(inductance.circuit, Circuit::series);
    EXPECT_EQ(inductance.frequency_hz, 120.0);
    EXPECT_EQ(inductance.value, 2.406);
    EXPECT_DOUBLE_EQ(frame.readings[0].resolution, 1e-5);
    EXPECT_EQ(resistance.quantity, Quantity::ac_resistance);
    EXPECT_EQ(resistance.value, 6132.0);
    EXPECT_DOUBLE_EQ(frame.readings[1].resolution, 0.01);
}

TEST(LineScan, SaysWhichEndOfAVoltageRangeWasPassed) {
    const Frame above = judged("dmm-scpi", "dc_voltage", "+9.9E37");
    const Frame below = judged("dmm-scpi", "dc_voltage", "-9.9E37");
    EXPECT_EQ(above.readings.front().reading.state, State::over_range);
    EXPECT_EQ(above.readings.front().reading.limit, 0.1);
    EXPECT_EQ(below.readings.front().reading.state, State::under_range);
    EXPECT_EQ(below.readings.front().reading.limit, -0.1);
}

TEST(LineScan, BelievesTheUnitThatTheMeterSendsRatherThanTheSetting) {
    // A figure of the Keithley 2700 manual, 14-1, read while resistance was asked for.
    const Frame frame =
        judged("dmm-scpi", "dc_resistance", "+1.23456789E-03VDC, +11.664SECS, +236RDNG, 000, 0000LIMITS");
    ASSERT_EQ(frame.readings.size(), 1U);
    EXPECT_EQ(frame.readings.front().reading.quantity, Quantity::dc_voltage);
}

/// Protocols of other makers, to be described in a file: names before numbers, words, fixed texts.
LineProtocol named_protocol() {
    LineProtocol line;
    line.layouts = {{{.kind = LineField::Kind::value},
                     {.kind = LineField::Kind::value, .index = 1},
                     {.kind = LineField::Kind::bin}}};
    line.keys = {{"L", {.quantity = Quantity::inductance}},
                 {"C", {.quantity = Quantity::capacitance}},
                 {"R", {.quantity = Quantity::ac_resistance}},
                 {"Q", {.quantity = Quantity::quality_factor}}};
    line.key_joiner = "=";
    line.words = {{"OVLOAD", Meaning::over_range}, {"NODATA", Meaning::no_data}};
    line.asides = {"OK"};
    return line;
}

TEST(LineScan, ReadsNumbersByTheNamesBeforeThem) {
    // Whole replies as printed in the Aim-TTi LCR400 manual, p. 19.
    const MeterSetting setting{.quantities = {}, .circuit = Circuit::series, .frequency_hz = 1000.0};
    const Frame coil = judge_line("L=1.5000E-6,Q=2.18,NOBIN", named_protocol(), setting);
    ASSERT_EQ(coil.readings.size(), 2U);
    EXPECT_EQ(coil.readings[0].reading.quantity, Quantity::inductance);
    EXPECT_EQ(coil.readings[0].reading.value, 1.5e-6);
    EXPECT_EQ(coil.readings[1].reading.quantity, Quantity::quality_factor);
    EXPECT_EQ(coil.readings[1].reading.value, 2.18);
    const Frame capacitor = judge_line("C=186.97E-6,R=0.2015,BIN=2", named_protocol(), setting);
    ASSERT_EQ(capacitor.readings.size(), 2U);
    EXPECT_EQ(capacitor.readings[0].reading.value, 186.97e-6);
    EXPECT_EQ(capacitor.readings[1].reading.value, 0.2015);
    EXPECT_EQ(judge_line("X=1.5000E-6,Q=2.18,NOBIN", named_protocol(), setting).verdict,
              Verdict::bad_structure);
    EXPECT_EQ(judge_line("1.5000E-6,2.18,NOBIN", named_protocol(), setting).verdict, Verdict::bad_structure);
}

TEST(LineScan, KnowsWholeLinesThatAreNoNumbers) {
    const MeterSetting setting{.quantities = {Quantity::dc_voltage}};
    const Frame overload = judge_line("OVLOAD", named_protocol(), setting);
    ASSERT_EQ(overload.readings.size(), 1U);
    EXPECT_EQ(overload.readings.front().reading.state, State::over_range);
    EXPECT_EQ(judge_line("NODATA", named_protocol(), setting).verdict, Verdict::not_live);
    EXPECT_EQ(judge_line("OK", named_protocol(), setting).verdict, Verdict::aside);
}

TEST(LineScan, TellsApartFaradAndFahrenheitByTheFunctionThatIsSet) {
    EXPECT_EQ(judged("dmm-unit-text", "capacitance", " 01.010e-6 F").readings.front().reading.quantity,
              Quantity::capacitance);
    EXPECT_DOUBLE_EQ(*judged("dmm-unit-text", "temperature", " 74.300e00 F").readings.front().reading.value,
                     23.5);
    const Frame neither = judged("dmm-unit-text", "dc_resistance", " 01.010e-6 F");
    EXPECT_EQ(neither.verdict, Verdict::senseless);
    EXPECT_EQ(neither.note, "what the unit F stands for depends on the function that the meter is set to");
}

TEST(LineScan, NamesWhatTheMeterIsOnWhereItIsNotOurs) {
    const Frame frame = judged("dmm-unit-text", "dc_voltage", " 00.1234e00 V AC");
    EXPECT_EQ(frame.verdict, Verdict::senseless);
    EXPECT_TRUE(frame.readings.empty());
    EXPECT_EQ(frame.note, "the meter is on volts AC");
}

TEST(LineScan, LeavesOutTheValueThatIsNotOursBesideOneThatIs) {
    const Frame frame =
        judged("lcr-meas-items", "inductance series 1000", "0,LS 2.33100E+00,X 1.46000E+04,0");
    ASSERT_EQ(frame.readings.size(), 1U);
    EXPECT_EQ(frame.readings.front().reading.value, 2.331);
}

struct Plain {
    const char* line;
    std::optional<double> value;
};

// Forms as the Fluke 1521 manual, section 8.2, and loggers send them; 298.65 K is 25.5 degC.
TEST(LineScan, ReadsTemperaturesInEveryFormAndUnit) {
    for (const Plain& row : std::vector<Plain>{{"25.5", 25.5},
                                               {"25,5", 25.5},
                                               {"t: 25.5 C", 25.5},
                                               {"t: 298.65 K", 25.5},
                                               {"T1:77.9 F", 25.5},
                                               {"t: -25,5 C", -25.5},
                                               {"25", {}},
                                               {"25.5E+00", {}},
                                               {"25,5,1", {}},
                                               {"x: 25.5 C", {}},
                                               {"t: 25.5 Q", {}},
                                               {"t: 150.0 C", {}}}) {
        const Frame frame = judged("temp-line", "temperature", row.line);
        ASSERT_EQ(frame.readings.size(), row.value ? 1U : 0U) << row.line;
        if (!row.value) continue;
        EXPECT_NEAR(*frame.readings.front().reading.value, *row.value, 1e-9) << row.line;
    }
}

TEST(LineScan, TakesStatesInLettersAndUnitsInFieldsOfTheirOwn) {
    const std::vector<Row> table{{"7.3521E3,OHM,NORMAL,NONE", Verdict::reading},
                                 {"9.9E+37,OHM,OL,NONE", Verdict::reading},
                                 {"0.0,OHM,BLANK,NONE", Verdict::not_live},
                                 {"0.0,OHM,DISCHARGE,NONE", Verdict::senseless},
                                 {"7.3521E3,OHM,STRANGE,NONE", Verdict::bad_structure},
                                 {"7.3521E3,QRT,NORMAL,NONE", Verdict::bad_structure},
                                 {"7.3521E3,NORMAL,NONE", Verdict::too_short},
                                 {"OL", Verdict::too_short},
                                 {"0", Verdict::aside},
                                 {"5", Verdict::not_live}};
    for (const Row& row : table)
        EXPECT_EQ(name(judged("dmm-qm", "dc_resistance", row.line).verdict), name(row.verdict)) << row.line;
}

TEST(LineScan, TakesAnyNumberOfBlanksForOneSeparator) {
    for (const char* text : {"2 OHM 7.3521 Kohm", "2  OHM   7.3521 Kohm ", "OHM 7.3521 Kohm"})
        EXPECT_EQ(judged("dmm-ascii-line", "dc_resistance", text).readings.front().reading.value, 7352.1)
            << text;
    for (const char* text :
         {"2 OHM Kohm 7.3521", "2 OHM 7.3521", "OHM 7.3521 Kohm 3 4 5 6 7", "4 OHM 7.3521 Kohm"})
        EXPECT_TRUE(judged("dmm-ascii-line", "dc_resistance", text).readings.empty()) << text;
}

TEST(LineScan, EndsALineAtAnyMixOfCarriageReturnAndLineFeed) {
    const Driver& driver = shipped_driver("dmm-scpi");
    const MeterSetting setting = setting_of(driver, "dc_resistance");
    for (const std::string end : {"\n", "\r", "\r\n", "\n\r"}) {
        std::string buffer = "+6.11200000E+03" + end + "+6.11300000E+03" + end;
        std::vector<double> values;
        bool at_boundary = true;
        LineRoom room;
        while (!buffer.empty()) {
            Frame frame;
            const std::size_t used = scan_line(buffer, *driver.line, setting, at_boundary, room, frame);
            ASSERT_GT(used, 0U);
            for (const DecodedReading& each : frame.readings)
                values.push_back(*each.reading.value);
            at_boundary = ends_line(buffer[used - 1]);
            buffer.erase(0, used);
        }
        EXPECT_EQ(values, (std::vector<double>{6112.0, 6113.0}));
    }
}

/// Characters that come before those that end lines in the alphabet, and beside them, in every place.
TEST(LineScan, EndsALineNowhereElse) {
    const Driver& driver = shipped_driver("dmm-scpi");
    for (const char other : {'\t', '\0', '\f', '\x0E', '\x80', '\xFF', 'x'})
        for (const char end : {'\r', '\n'})
            for (std::size_t length = 1; length < 40; ++length)
                for (std::size_t at = 0; at < length; ++at) {
                    std::string line(length, '7');
                    line[at] = other;
                    LineRoom room;
                    Frame frame;
                    EXPECT_EQ(scan_line(line + end + "8\n", *driver.line, {}, true, room, frame), length);
                    EXPECT_EQ(scan_line(line, *driver.line, {}, true, room, frame), 0U);
                }
}

/// Each place of a reply lost in turn: the number of digits is the manual's, so that nothing is read that the
/// meter did not show.
TEST(LineScan, ReadsNoNumberThatLostACharacter) {
    const Driver& driver = shipped_driver("lcr-fetch-ab");
    const MeterSetting setting = setting_of(driver, "inductance series 1000");
    const std::string whole = "+4.12345E+00,+2.34567E+00,+0"; // Keysight E4980A/AL user's guide, p. 261
    ASSERT_EQ(judge_line(whole, *driver.line, setting).readings.size(), 2U);
    for (std::size_t at = 0; at < whole.size(); ++at) {
        std::string line = whole;
        line.erase(at, 1);
        const Frame frame = judge_line(line, *driver.line, setting);
        EXPECT_TRUE(frame.readings.empty() || frame.unusual_digits > 0) << line;
    }
}

TEST(LineScan, HoldsANumberToTheDigitsOfItsUnit) {
    const Driver& driver = shipped_driver("dmm-unit-text");
    const MeterSetting setting = setting_of(driver, "dc_resistance");
    const auto readings = [&](std::string_view line) {
        return judge_line(line, *driver.line, setting).readings.size();
    };
    EXPECT_EQ(readings(" 07.3521e03 Ohms"), 1U);
    EXPECT_EQ(readings(" 07.352e03 Ohms"), 0U);
    EXPECT_EQ(readings(" 07.35211e03 Ohms"), 0U);
}

} // namespace
} // namespace coilward
