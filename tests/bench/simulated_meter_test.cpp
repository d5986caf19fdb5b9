#include "bench/settling.h"
#include "bench/simulated_meter.h"
#include "bench/simulated_port.h"
#include "bench/watch.h"
#include "capture_folder.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <unistd.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;

/// 2.331 H and 6112 ohm with a frame that is 46 pF away; insulation beyond every range.
std::optional<double> coil(Quantity quantity, Circuit, double frequency_hz) {
    switch (quantity) {
    case Quantity::inductance:
        return 2.331;
    case Quantity::ac_resistance:
        return 6112.0 + 0.4 * frequency_hz;
    case Quantity::dc_resistance:
        return 6112.0;
    case Quantity::capacitance:
        return 46e-12;
    case Quantity::dissipation_factor:
        return 0.015;
    case Quantity::insulation_resistance:
        return 1e12;
    default:
        return std::nullopt;
    }
}

TEST(SimulatedMeter, ObeysItsDriversCommandsAndAnswersInItsLayout) {
    SimulatedMeter meter(shipped_driver("lcr-fetch-ab"), coil);
    EXPECT_EQ(meter.answer("FETC?\n"), "+2.33100E+00,+6.51200E+03,+0\n");
    EXPECT_EQ(meter.answer("FREQ 120\nFE"), "");
    EXPECT_EQ(meter.answer("TC?\r\n"), "+2.33100E+00,+6.16000E+03,+0\n");
    EXPECT_EQ(meter.answer("FREQ?\nFUNC:IMP?\n"), "+1.20000E+02\nLSRS\n");
    EXPECT_EQ(meter.answer("FUNC:IMP LSQ\nFETC?\n"), "+9.90000E+37,+9.90000E+37,+1\n"); // it has no Q
    EXPECT_EQ(meter.answer("FUNC:IMP CPD\nFETC?\n"), "+4.60000E-11,+1.50000E-02,+0\n");
    EXPECT_EQ(meter.answer("SYST:ERR?\n"), "+0,\"No error\"\n");
    EXPECT_EQ(meter.answer("BEEP\nSYST:ERR?\nSYST:ERR?\n"), "-113,\"Undefined header\"\n+0,\"No error\"\n");
}

TEST(SimulatedMeter, ShowsOverRangeBeyondTheRangeThatIsSet) {
    SimulatedMeter meter(shipped_driver("dmm-scpi"), coil, {.relative = 0.0, .seed = 1, .decimals = 8});
    EXPECT_EQ(meter.answer("READ?\n"), "+6.11200000E+03\n");
    EXPECT_EQ(meter.answer("CONF:RES 1E8\nREAD?\n"), "+9.90000000E+37\n");
}

TEST(SimulatedMeter, WandersTheSameWayForTheSameSeed) {
    const auto ten = [](std::uint64_t seed) {
        SimulatedMeter meter(shipped_driver("dmm-scpi"), coil,
                             {.relative = 1e-3, .seed = seed, .decimals = 8});
        std::string all;
        for (int i = 0; i < 10; ++i)
            all += meter.answer("READ?\n");
        return all;
    };
    EXPECT_EQ(ten(5), ten(5));
    EXPECT_NE(ten(5), ten(6));
}

TEST(SimulatedMeter, IsTurnedOnlyToWhatItMeasures) {
    SimulatedMeter meter(shipped_driver("stx16"), coil);
    meter.turn_to({.quantity = Quantity::inductance, .frequency_hz = 1000.0});
    EXPECT_EQ(meter.unasked(), "\x02"
                               "41410000002331\r"); // DM-9962SD manual, p. 17; 41: millihenry
    EXPECT_THROW(meter.turn_to({.quantity = Quantity::quality_factor}), std::invalid_argument);
}

enum class Kind { terminal, tcp };

class SimulatedPorts : public testing::TestWithParam<Kind> {
protected:
    static std::unique_ptr<SimulatedPort> simulate(const Driver& driver) {
        SimulatedMeter meter(driver, coil, {.relative = 1e-6, .seed = 3});
        return GetParam() == Kind::terminal ? simulate_on_terminal(std::move(meter))
                                            : simulate_on_tcp(std::move(meter));
    }

    static MeterSession session_with(const Driver& driver, const SimulatedPort& port) {
        return MeterSession(driver, open_port(port_from_text(port.name()), driver.serial));
    }
};

TEST_P(SimulatedPorts, IsMeasuredLikeAMeter) {
    const Driver& driver = shipped_driver("lcr-fetch-ab");
    const auto port = simulate(driver);
    MeterSession session = session_with(driver, *port);
    EXPECT_EQ(session.identity(), "COILWARD,SIMULATED lcr-fetch-ab,0,1");
    SettlingRule quick;
    quick.readings = 2;
    const auto measured = measure(
        session, {.quantity = Quantity::ac_resistance, .frequency_hz = 120.0, .circuit = Circuit::series},
        quick);
    ASSERT_EQ(measured.readings.size(), 2U);
    EXPECT_EQ(measured.readings[0].quantity, Quantity::ac_resistance); // what was asked for comes first
    EXPECT_NEAR(*measured.readings[0].value, 6160.0, 0.1);
    EXPECT_NEAR(*measured.readings[1].value, 2.331, 1e-4);
    EXPECT_EQ(measured.readings[1].frequency_hz, 120.0);
    EXPECT_TRUE(measured.readings[1].standard_uncertainty);
}

TEST_P(SimulatedPorts, TurnsAPulledPlugIntoAState) {
    const Driver& driver = shipped_driver("dmm-scpi");
    const auto port = simulate(driver);
    MeterSession session = session_with(driver, *port);
    session.prepare({.quantity = Quantity::dc_resistance});
    EXPECT_TRUE(std::holds_alternative<StampedReading>(session.next(seconds(10))));
    port->unplug();
    SessionEvent event = session.next(seconds(10));
    while (std::holds_alternative<StampedReading>(event))
        event = session.next(seconds(10)); // still in the line
    ASSERT_TRUE(std::holds_alternative<LinkOver>(event));
    EXPECT_EQ(std::get<LinkOver>(event).outcome, LinkOutcome::unplugged);
}

TEST_P(SimulatedPorts, IsWatchedForACountOfReadings) {
    const Driver& driver = shipped_driver("dmm-scpi");
    const auto port = simulate(driver);
    MeterSession session = session_with(driver, *port);
    WatchOrder order;
    order.count = 3;
    std::vector<Reading> readings;
    const WatchEnd end =
        watch(session, order, [&](const StampedReading& each) { readings.push_back(each.reading); });
    EXPECT_EQ(end.why, WatchEnd::Why::counted);
    EXPECT_EQ(readings.size(), 3U);
    EXPECT_EQ(readings.front().quantity, Quantity::dc_resistance);
    EXPECT_EQ(end.counts.bytes_that_are_no_reading(), 0U);
}

TEST_P(SimulatedPorts, ServesOneHostAfterAnother) {
    const Driver& driver = shipped_driver("dmm-scpi");
    const auto port = simulate(driver);
    for (int host = 0; host < 3; ++host) {
        MeterSession session = session_with(driver, *port);
        session.prepare({.quantity = Quantity::dc_resistance});
        EXPECT_TRUE(std::holds_alternative<StampedReading>(session.next(seconds(10)))) << host;
    }
}

INSTANTIATE_TEST_SUITE_P(On, SimulatedPorts, testing::Values(Kind::terminal, Kind::tcp),
                         [](const auto& each) { return each.param == Kind::terminal ? "terminal" : "tcp"; });

} // namespace
} // namespace coilward
