#include "bench/meter_session.h"
#include "capture_folder.h"
#include "scripted_meter.h"

#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;
using Commands = std::vector<std::string>;

const MeasurementRequest resistance{.quantity = Quantity::dc_resistance};
const MeasurementRequest inductance{
    .quantity = Quantity::inductance, .frequency_hz = 1000.0, .circuit = Circuit::series};

/// A bench multimeter that answers every READ? alike and nothing else.
std::shared_ptr<Script> answering(const std::string& poll, const std::string& reply) {
    auto script = std::make_shared<Script>();
    script->answer = [=](const std::string& command) { return command == poll + "\n" ? reply : ""; };
    return script;
}

double value_of(const SessionEvent& event) {
    const auto* stamped = std::get_if<StampedReading>(&event);
    return stamped ? stamped->reading.value.value_or(-1.0) : -2.0;
}

TEST(MeterSession, SendsTheDriversCommandsInTheirOrder) {
    const auto script = answering("READ?", "+6.11200000E+03\r\n");
    MeterSession session(shipped_driver("dmm-scpi"), scripted_link(script));
    session.prepare(resistance);
    EXPECT_EQ(value_of(session.next(seconds(1))), 6112.0);
    EXPECT_EQ(script->commands, (Commands{"SYST:REM\n", "*CLS\n", "CONF:RES\n", "SYST:ERR?\n", "READ?\n"}));
}

TEST(MeterSession, AsksASilentMeterOnlyOneQuestionInVain) {
    const auto script = answering("FETC?", "+4.12345E+00,+2.34567E+00,+0\n");
    MeterSession session(shipped_driver("lcr-fetch-ab"), scripted_link(script));
    session.prepare_as_it_is();
    EXPECT_EQ(value_of(session.next(seconds(1))), 4.12345);
    EXPECT_EQ(script->commands,
              (Commands{"*CLS\n", "FUNC:IMP?\n", "FUNC:IMP LSRS\n", "FREQ 1000\n", "FETC?\n"}));
}

TEST(MeterSession, LeavesAMeterAsItIsWhereItSaysHowItIsSet) {
    auto script = std::make_shared<Script>();
    script->answer = [](const std::string& command) -> std::string {
        if (command == "FUNC:IMP?\n") return "CPD\n";
        if (command == "FREQ?\n") return "+1.20000E+02\n";
        return command == "FETC?\n" ? "+2.20000E-10,+1.50000E-02,+0\n" : "";
    };
    MeterSession session(shipped_driver("lcr-fetch-ab"), scripted_link(script));
    session.prepare_as_it_is();
    const SessionEvent event = session.next(seconds(1));
    const auto& reading = std::get<StampedReading>(event).reading;
    EXPECT_EQ(reading.quantity, Quantity::capacitance);
    EXPECT_EQ(reading.circuit, Circuit::parallel);
    EXPECT_EQ(reading.frequency_hz, 120.0);
    EXPECT_EQ(script->commands, (Commands{"*CLS\n", "FUNC:IMP?\n", "FREQ?\n", "FETC?\n"}));
}

/// A meter that acknowledges each command, and refuses one.
std::shared_ptr<Script> acknowledging(const std::string& refused) {
    auto script = std::make_shared<Script>();
    script->answer = [=](const std::string& command) -> std::string {
        if (command == "READALL?\n") return "L=1.5000E-6,Q=2.18,NOBIN\r\n";
        return command == refused + "\n" ? "ERR10\r\n" : "OK\r\n";
    };
    return script;
}

TEST(MeterSession, WaitsForTheAcknowledgementOfEachCommand) {
    const auto script = acknowledging("");
    MeterSession session(shipped_driver("lcr-readall-eq"), scripted_link(script));
    session.prepare(inductance);
    EXPECT_TRUE(script->pieces.empty()) << "an acknowledgement was left in the line";
    EXPECT_EQ(value_of(session.next(seconds(1))), 1.5e-6);
    EXPECT_EQ(script->commands, (Commands{"FUNC 2\n", "FREQ 2\n", "MODE 1\n", "READALL?\n"}));
    EXPECT_EQ(session.counts().bytes_that_are_no_reading(), 0U);
}

TEST(MeterSession, SaysWhichCommandTheMeterRefused) {
    MeterSession session(shipped_driver("lcr-readall-eq"), scripted_link(acknowledging("FREQ 2")));
    try {
        session.prepare(inductance);
        FAIL() << "the refusal went unnoticed";
    } catch (const CannotMeasure& error) {
        EXPECT_STREQ(error.what(),
                     "lcr-readall-eq did not accept \"FREQ 2\": it answers ERR10; set it by hand and let "
                     "it be read as it is set");
    }
}

TEST(MeterSession, WaitsForASilentMetersAcknowledgementOnlyOnce) {
    const auto script = std::make_shared<Script>();
    MeterSession session(shipped_driver("lcr-readall-eq"), scripted_link(script));
    const milliseconds before = session.clock().elapsed();
    session.prepare(inductance);
    EXPECT_EQ(session.clock().elapsed() - before,
              milliseconds(500 + 1000)); // one answer's time, and settling
    EXPECT_EQ(script->commands, (Commands{"FUNC 2\n", "FREQ 2\n", "MODE 1\n"}));
}

TEST(MeterSession, TakesTheFrequencyThatTheMeterReallySet) {
    auto script = std::make_shared<Script>();
    script->answer = [](const std::string& command) -> std::string {
        if (command == "SYST:ERR?\n") return "+0,\"No error\"\n";
        if (command == "FUNC:IMP?\n") return "LSRS\n";
        if (command == "FREQ?\n") return "+1.00000E+03\n"; // it has no 997 Hz
        return command == "FETC?\n" ? "+2.33100E+00,+6.58000E+03,+0\n" : "";
    };
    MeterSession session(shipped_driver("lcr-fetch-ab"), scripted_link(script));
    session.prepare({.quantity = Quantity::inductance, .frequency_hz = 997.0});
    EXPECT_EQ(std::get<StampedReading>(session.next(seconds(1))).reading.frequency_hz, 1000.0);
}

std::string refusal(const std::string& driver, const MeasurementRequest& request, const std::string& question,
                    const std::string& answer) {
    MeterSession session(shipped_driver(driver), scripted_link(answering(question, answer)));
    try {
        session.prepare(request);
    } catch (const CannotMeasure& error) {
        return error.what();
    }
    return "prepared";
}

TEST(MeterSession, SaysWhatTheMeterCannotDoOrDidNotAccept) {
    EXPECT_EQ(
        refusal("dmm-scpi", inductance, "", ""),
        "dmm-scpi cannot measure inductance series 1000; it can measure two-wire resistance, insulation "
        "resistance, 100 megohm range, direct voltage, 100 millivolt range");
    EXPECT_EQ(refusal("dmm-scpi", resistance, "SYST:ERR?", "-113,\"Undefined header\"\n"),
              "dmm-scpi did not accept the set-up for two-wire resistance: it answers -113,\"Undefined "
              "header\"; set it "
              "by hand and let it be read as it is set");
}

TEST(MeterSession, RefusesAMeterThatStaysInAnotherFunction) {
    auto script = std::make_shared<Script>();
    script->answer = [](const std::string& command) -> std::string {
        if (command == "SYST:ERR?\n") return "+0,\"No error\"\n";
        return command == "FUNC?\n" ? "\"VOLT\"\n" : "";
    };
    MeterSession session(shipped_driver("dmm-scpi"), scripted_link(script));
    EXPECT_THROW(session.prepare(resistance), CannotMeasure);
}

TEST(MeterSession, KnowsTheEndOfTheRangeOnlyWhereTheMeterConfirmedIt) {
    const MeasurementRequest insulation{.quantity = Quantity::insulation_resistance,
                                        .between = Between::start_frame};
    for (const bool confirms : {true, false}) {
        auto script = std::make_shared<Script>();
        script->answer = [=](const std::string& command) -> std::string {
            if (command == "SYST:ERR?\n" && confirms) return "+0,\"No error\"\n";
            return command == "READ?\n" ? "+9.9E37\n" : "";
        };
        MeterSession session(shipped_driver("dmm-scpi"), scripted_link(script));
        session.prepare(insulation);
        const SessionEvent event = session.next(seconds(1));
        const auto& reading = std::get<StampedReading>(event).reading;
        EXPECT_EQ(reading.state, State::over_range);
        EXPECT_EQ(reading.limit, confirms ? std::optional(1e8) : std::nullopt);
        EXPECT_EQ(reading.quantity, Quantity::insulation_resistance);
    }
}

TEST(MeterSession, CountsWhatCameUnaskedBeforeTheSetUpButDoesNotReadIt) {
    const auto script = answering("FETC?", "+2.33100E+00,+6.58000E+03,+0\n");
    script->pieces = {"+4.12345E+00,+2.34567E+00,+0\n"}; // of whatever was set before
    MeterSession session(shipped_driver("lcr-fetch-ab"), scripted_link(script));
    session.prepare(inductance);
    EXPECT_EQ(value_of(session.next(seconds(1))), 2.331);
    EXPECT_EQ(session.counts().bytes(Verdict::not_live), 28U);
}

TEST(MeterSession, KeepsWhatTheLastUselessFrameSaid) {
    const auto script = answering("FETC?", "+9.90000E+37,+9.90000E+37,-1\n");
    MeterSession session(shipped_driver("lcr-fetch-ab"), scripted_link(script));
    session.prepare(inductance);
    session.next(seconds(1));
    EXPECT_EQ(session.last_note(), "the meter has no measurement yet");
}

TEST(MeterSession, DropsAnAnswerThatBrokeOffAndAsksAgain) {
    auto script = std::make_shared<Script>();
    int asked = 0;
    script->answer = [&](const std::string& command) -> std::string {
        if (command != "READ?\n") return "";
        return ++asked == 1 ? "+6.11" : "+6.11200000E+03\r\n";
    };
    MeterSession session(shipped_driver("dmm-scpi"), scripted_link(script));
    session.prepare(resistance);
    EXPECT_EQ(value_of(session.next(seconds(20))), 6112.0);
    EXPECT_EQ(asked, 2);
    EXPECT_EQ(session.counts().bytes(Verdict::too_short), 5U);
}

TEST(MeterSession, DoesNotTakeTheRestOfALateAnswerForANewOne) {
    // Noise is answered for by a new question while the true answer still arrives.
    auto script = std::make_shared<Script>();
    int asked = 0;
    script->answer = [&](const std::string& command) -> std::string {
        if (command != "READ?\n") return "";
        return ++asked == 1 ? "\xFF\xFF\r\n-6.1" : "1200000E+03\r\n";
    };
    MeterSession session(shipped_driver("dmm-scpi"), scripted_link(script));
    session.prepare(resistance);
    EXPECT_EQ(value_of(session.next(seconds(1))), -6112.0);
}

TEST(MeterSession, TellsSilenceFromBytesThatDoNotDecode) {
    auto quiet = std::make_shared<Script>();
    MeterSession silent(shipped_driver("stx16"), scripted_link(quiet));
    silent.prepare(resistance);
    EXPECT_EQ(std::get<Silence>(silent.next(seconds(3))).bytes, 0U);
    auto noisy = std::make_shared<Script>();
    noisy->pieces = {"\xF8\x80\x1E", "\xF8\x80"};
    MeterSession garbled(shipped_driver("stx16"), scripted_link(noisy));
    garbled.prepare(resistance);
    EXPECT_EQ(std::get<Silence>(garbled.next(seconds(3))).bytes, 5U);
}

TEST(MeterSession, PassesOverWhatAStreamSentWhileNobodyReadIt) {
    auto script = std::make_shared<Script>();
    script->pieces = {"2 OHM 6.1120 Kohm\r\n"};
    MeterSession session(shipped_driver("dmm-ascii-line"), scripted_link(script));
    session.prepare(resistance);
    EXPECT_EQ(value_of(session.next(seconds(1))), 6112.0);
    // Meanwhile the probes go elsewhere; the line keeps what the meter said on the way.
    script->pieces = {"2 OHM 6.1120 Kohm\r\n2 OHM 6.1120 Ko", "hm\r\n2 ACV 1.2345 V\r\n2 OHM 0.9"};
    session.prepare(resistance);
    EXPECT_EQ(session.last_note(), "") << "nor is it told why there was no reading then";
    script->pieces = {"510 Mohm\r\n", "2 OHM 0.9520 Mohm\r\n"};
    EXPECT_EQ(value_of(session.next(seconds(1))), 951000.0) << "no frame is cut";
    EXPECT_EQ(value_of(session.next(seconds(1))), 952000.0);
}

TEST(MeterSession, GivesTheReadingsThatCameBeforeTheLoss) {
    auto script = std::make_shared<Script>();
    script->pieces = {"\x02"
                      "41390300007352\r\x02"
                      "4139"};
    script->pulled = true;
    MeterSession session(shipped_driver("stx16"), scripted_link(script));
    session.prepare(resistance);
    EXPECT_EQ(value_of(session.next(seconds(3))), 7352.0);
    EXPECT_EQ(std::get<LinkOver>(session.next(seconds(3))).outcome, LinkOutcome::unplugged);
    EXPECT_EQ(std::get<LinkOver>(session.next(seconds(3))).outcome, LinkOutcome::unplugged);
    EXPECT_EQ(session.counts().bytes(Verdict::too_short), 5U);
}

TEST(MeterSession, StampsAReadingWithItsTimeItsMeterAndItsBytes) {
    const auto script = answering("READ?", "+6.11200000E+03\r\n");
    Link link = scripted_link(script);
    const auto clock = link.clock;
    MeterSession session(shipped_driver("dmm-scpi"), std::move(link));
    session.prepare(resistance);
    const SessionEvent event = session.next(seconds(1));
    const auto& stamped = std::get<StampedReading>(event);
    EXPECT_EQ(stamped.at, clock->now());
    EXPECT_EQ(stamped.meter, "dmm-scpi");
    EXPECT_EQ(stamped.raw, "+6.11200000E+03");
    EXPECT_DOUBLE_EQ(stamped.resolution, 1e-5);
}

} // namespace
} // namespace coilward
