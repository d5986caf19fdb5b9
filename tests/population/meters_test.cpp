#include "meters.h"

#include <cmath>

#include <gtest/gtest.h>

namespace population {
namespace {

constexpr int draws = 4000;
/// Four standard deviations of a mean and of a standard deviation from so many draws.
constexpr double tolerance = 4.0 / 63.2;

const Question inductance{"inductance", "leads", "series", 1000.0};

/// Mean and standard deviation of (value − truth) / stated uncertainty.
std::pair<double, double> standardised(const Instruments& instruments, const Question& question,
                                       std::complex<double> impedance) {
    Random random(7, 1);
    double sum = 0.0;
    double squares = 0.0;
    for (int i = 0; i < draws; ++i) {
        const LcrMeasurement measurement(instruments, {impedance, impedance, impedance, false}, random);
        const ReadingJson reading = measurement.read(question, random).value();
        const double error = (reading["value"].get<double>() - quantity_of(impedance, question)) /
                             reading["standard_uncertainty"].get<double>();
        sum += error;
        squares += error * error;
    }
    return {sum / draws, std::sqrt(squares / draws - sum * sum / draws / draws)};
}

TEST(Meters, ErrorsAreAsLargeAsStated) {
    const std::vector<Question> questions{
        {"inductance", "leads", "series", 1000.0},    {"inductance", "leads", "parallel", 120.0},
        {"ac_resistance", "leads", "series", 1000.0}, {"quality_factor", "leads", "", 1000.0},
        {"dissipation_factor", "leads", "", 1000.0},  {"impedance_magnitude", "leads", "", 1000.0},
        {"phase_angle", "leads", "", 1000.0}};
    for (const bool joint : {false, true})
        for (const Question& question : questions) {
            Instruments instruments;
            instruments.errors_joint = joint;
            const auto [mean, deviation] = standardised(instruments, question, {6500.0, 14000.0});
            EXPECT_NEAR(mean, 0.0, tolerance) << question.quantity << joint;
            EXPECT_NEAR(deviation, 1.0, tolerance) << question.quantity << joint;
        }
}

/// The printed accuracy form (1 + 1/Q): a coil at 120 Hz is read ten times worse than a pure inductance.
TEST(Meters, LowQMakesInductanceUncertain) {
    Random random(7, 2);
    const std::complex<double> at_q_of_a_third(6000.0, 2000.0);
    const LcrMeasurement measurement({}, {at_q_of_a_third, at_q_of_a_third, at_q_of_a_third, false}, random);
    const ReadingJson reading = measurement.read(inductance, random).value();
    const double relative = 0.003 * (1.0 + std::hypot(6000.0, 2000.0) / 1e6) * (1.0 + 3.0) / std::sqrt(3.0);
    const double truth = 2000.0 / (2000.0 * 3.14159265358979);
    EXPECT_NEAR(reading["standard_uncertainty"].get<double>(), truth * relative, 0.01 * truth * relative);
}

TEST(Meters, CapacitiveCoilHasNegativeInductanceOrNone) {
    const std::complex<double> open(5e4, -1.6e6);
    const Seen seen{open, open, open, false};
    Random random(7, 3);
    Instruments instruments;
    EXPECT_LT(LcrMeasurement(instruments, seen, random).read(inductance, random).value()["value"], 0.0);
    instruments.shows_negative = false;
    const LcrMeasurement other(instruments, seen, random);
    EXPECT_EQ(other.read(inductance, random).value()["state"], "over_range");
    EXPECT_FALSE(other.read({"quality_factor", "leads", "", 1000.0}, random).has_value());
}

TEST(Meters, OhmmeterEndsAtItsLimit) {
    Random random(7, 4);
    const auto read = [&](double ohm) { return read_dc_resistance({}, {ohm, ohm, ohm, false}, random); };
    EXPECT_EQ(read(1e9)["state"], "over_range");
    EXPECT_EQ(read(1e9)["limit"], 40e6);
    EXPECT_NEAR(read(35e6)["value"].get<double>(), 35e6, 0.2e6);
    EXPECT_FALSE(read(35e6).contains("state"));
}

TEST(Meters, WanderLargerThanTheMeterErrorShows) {
    Random random(7, 5);
    EXPECT_EQ(read_dc_resistance({}, {9000.0, 8000.0, 10000.0, true}, random)["spread"], 1000.0);
    EXPECT_FALSE(read_dc_resistance({}, {9000.0, 8999.0, 9001.0, true}, random).contains("spread"));
}

} // namespace
} // namespace population
