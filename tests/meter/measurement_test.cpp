#include "meter/measurement.h"
#include "shipped_driver.h"

#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

using Lines = std::vector<std::string>;

TEST(MeasurementRequest, IsTextAndBack) {
    for (const char* text : {"inductance", "inductance series 1000", "capacitance parallel 1000 start-frame",
                             "insulation_resistance finish-frame", "ac_resistance series 120"})
        EXPECT_EQ(to_text(request_from_text(text).value()), text);
    EXPECT_EQ(request_from_text("inductance 120 series")->frequency_hz, 120.0);
    for (const char* text : {"", "loudness", "inductance loudly", "inductance -5", "inductance 0",
                             "inductance 1000 120", "inductance series parallel", "1000"})
        EXPECT_FALSE(request_from_text(text)) << text;
}

struct Wish {
    const char* driver;
    const char* request;
    Lines commands;
};

TEST(Setup, IsTheFirstThatGivesWhatIsAskedFor) {
    const std::vector<Wish> table{
        {"lcr-fetch-ab", "inductance", {"FUNC:IMP LSRS", "FREQ 1000"}},
        {"lcr-fetch-ab", "inductance 120", {"FUNC:IMP LSRS", "FREQ 120"}},
        {"lcr-fetch-ab", "ac_resistance series 1000", {"FUNC:IMP LSRS", "FREQ 1000"}},
        {"lcr-fetch-ab", "quality_factor 100", {"FUNC:IMP LSQ", "FREQ 100"}},
        {"lcr-fetch-ab", "inductance parallel 1000", {"FUNC:IMP LPQ", "FREQ 1000"}},
        {"lcr-fetch-ab", "capacitance 1000 start-frame", {"FUNC:IMP CPD", "FREQ 1000"}},
        {"lcr-fetch-ab", "capacitance series 10000", {"FUNC:IMP CSD", "FREQ 10000"}},
        {"lcr-fetch-ab", "phase_angle", {"FUNC:IMP ZTR", "FREQ 1000"}},
        {"dmm-scpi", "dc_resistance", {"CONF:RES"}},
        {"dmm-scpi", "insulation_resistance start-frame", {"CONF:RES 1E8"}},
        {"dmm-scpi", "dc_voltage", {"CONF:VOLT:DC 0.1"}},
    };
    for (const Wish& wish : table) {
        const auto request = request_from_text(wish.request).value();
        const MeterSetup* setup = setup_for(shipped_driver(wish.driver), request);
        ASSERT_NE(setup, nullptr) << wish.request;
        EXPECT_EQ(commands_for(*setup, frequency_for(*setup, request)), wish.commands) << wish.request;
    }
}

TEST(Setup, IsRefusedWhereTheMeterCannotDoIt) {
    for (const auto& [driver, request] :
         std::vector<std::pair<const char*, const char*>>{{"lcr-fetch-ab", "dc_resistance"},
                                                          {"lcr-fetch-ab", "inductance 5"},
                                                          {"lcr-fetch-ab", "inductance 200000"},
                                                          {"dmm-scpi", "inductance"},
                                                          {"dmm-scpi", "polarity"}})
        EXPECT_EQ(setup_for(shipped_driver(driver), request_from_text(request).value()), nullptr) << request;
}

TEST(Setup, IsKnownByTheNamesThatTheMeterUses) {
    const Driver& lcr = shipped_driver("lcr-fetch-ab");
    ASSERT_NE(setup_called(lcr, "lsq"), nullptr);
    EXPECT_EQ(setup_called(lcr, "lsq")->name, "series inductance and Q");
    EXPECT_EQ(setup_called(lcr, "Cp-D")->gives.front(), Quantity::capacitance);
    EXPECT_EQ(setup_called(shipped_driver("dmm-scpi"), "\"VOLT:DC\"")->gives.front(), Quantity::dc_voltage);
    EXPECT_EQ(setup_called(lcr, "+1.00000E+03"), nullptr);
}

TEST(Setup, TellsThePersonWhatToDoWhereTheMeterObeysNoCommand) {
    const Driver& handheld = shipped_driver("stx16");
    const auto request = request_from_text("inductance 120").value();
    EXPECT_EQ(instruction_for(*setup_for(handheld, request), 120.0),
              "Turn the meter to inductance at 120 Hz and start its output.");
}

TEST(Reading, IsCalledAsItWasAskedFor) {
    Reading resistance;
    resistance.quantity = Quantity::dc_resistance;
    const auto to_frame = as_requested(
        resistance,
        {.quantity = Quantity::insulation_resistance, .between = Between::start_frame, .coil = "slug"});
    EXPECT_EQ(to_frame.quantity, Quantity::insulation_resistance);
    EXPECT_EQ(to_frame.between, Between::start_frame);
    EXPECT_EQ(to_frame.coil, "slug");
    EXPECT_EQ(as_requested(resistance, {.quantity = Quantity::dc_resistance}).quantity,
              Quantity::dc_resistance);
}

} // namespace
} // namespace coilward
