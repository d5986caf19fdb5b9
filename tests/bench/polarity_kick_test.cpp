// Constructed displays of a 400.0 mV range with steps of 0.1 mV: what an integrating meter shows of a kick
// whose area is known, as (area inside its window) / window.

#include "bench/polarity_kick.h"

#include <algorithm>
#include <cmath>
#include <random>

#include <gtest/gtest.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using Outcome = Kick::Outcome;

constexpr double step = 0.1e-3; ///< volts

/// Flux moves by so much times turns in a straight line between two moments.
struct Move {
    double begin_s;
    double end_s;
    double area_volt_seconds;
};

/// One meter at one touch.
struct Bench {
    const char* what;
    double readings_a_second;
    double window_s; ///< in which it integrates, at the end of each period
    double noise_volts;
    std::vector<Move> moves;
    Outcome wanted;
};

double mean_voltage(const std::vector<Move>& moves, double begin_s, double end_s) {
    double area = 0.0;
    for (const Move& move : moves) {
        const double inside = std::min(end_s, move.end_s) - std::max(begin_s, move.begin_s);
        area += move.area_volt_seconds * std::max(inside, 0.0) / (move.end_s - move.begin_s);
    }
    return area / (end_s - begin_s);
}

StampedReading display(double at_s, double volts) {
    StampedReading stamped;
    stamped.at = Moment{milliseconds(static_cast<int>(1000.0 * at_s))};
    stamped.reading.quantity = Quantity::dc_voltage;
    stamped.reading.value = step * std::round(volts / step);
    stamped.resolution = step;
    return stamped;
}

/// The first outcome of ten seconds.
std::optional<Kick> outcome_of(const Bench& bench, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<double> noise(0.0, std::max(bench.noise_volts, 1e-12));
    KickWatch watch;
    for (double at = 0.0; at < 10.0; at += 1.0 / bench.readings_a_second) {
        constexpr double offset = 0.4e-3; // of a meter that is not at zero
        const double mean = mean_voltage(bench.moves, at - bench.window_s, at);
        if (const auto kick = watch.offer(display(at, offset + mean + noise(random)))) return kick;
    }
    return std::nullopt;
}

// 3 to 7 mV·s: 8000 turns and 0.4 to 0.9 µWb, an estimate of our own. A touch takes 150 ms.
const std::vector<Bench> benches{
    {"2 a second, long window", 2.0, 0.4, 0.1e-3, {{4.2, 4.35, 5e-3}}, Outcome::positive},
    {"2 a second, other sign", 2.0, 0.4, 0.1e-3, {{4.2, 4.35, -3e-3}}, Outcome::negative},
    {"3 a second", 3.0, 0.2, 0.1e-3, {{4.2, 4.35, 3e-3}}, Outcome::positive},
    {"10 a second", 10.0, 0.1, 0.2e-3, {{4.2, 4.35, -3e-3}}, Outcome::negative},
    {"slow hand", 5.0, 0.2, 0.1e-3, {{4.0, 4.8, 3e-3}}, Outcome::positive},
    {"held, then pulled away", 5.0, 0.2, 0.1e-3, {{4.0, 4.2, 5e-3}, {6.0, 6.2, -5e-3}}, Outcome::positive},
    {"a bump", 5.0, 0.2, 0.1e-3, {{4.0, 4.2, 5e-3}, {4.4, 4.6, -5e-3}}, Outcome::both_signs},
    {"a bump in one window shows nothing",
     2.0,
     0.4,
     0.0,
     {{4.15, 4.25, 5e-3}, {4.3, 4.4, -5e-3}},
     Outcome::none},
    {"a dead coil", 3.0, 0.2, 0.1e-3, {}, Outcome::none},
    {"in the dead time of the meter", 2.0, 0.1, 0.1e-3, {{4.05, 4.2, 5e-3}}, Outcome::none},
    {"before the baseline", 3.0, 0.2, 0.1e-3, {{1.0, 1.2, 5e-3}}, Outcome::too_early},
    {"one a second", 1.0, 0.4, 0.1e-3, {{4.2, 4.35, 5e-3}}, Outcome::too_few},
};

TEST(PolarityKick, TellsTheSignOfTheFirstKick) {
    for (const Bench& bench : benches)
        for (unsigned seed = 1; seed <= 200; ++seed) {
            const auto kick = outcome_of(bench, seed);
            ASSERT_TRUE(kick) << bench.what;
            EXPECT_EQ(kick->outcome, bench.wanted) << bench.what << ", seed " << seed;
            EXPECT_EQ(kick->is_sign(), kick->confidence > 0.5) << bench.what;
        }
}

TEST(PolarityKick, HardlyInventsASignFromNoise) {
    const Bench dead{"a dead coil", 10.0, 0.1, 0.5e-3, {}, Outcome::none};
    int again = 0;
    int signs = 0;
    for (unsigned seed = 1; seed <= 1000; ++seed) {
        const auto kick = outcome_of(dead, seed);
        ASSERT_TRUE(kick);
        if (kick->is_sign()) ++signs;
        if (kick->outcome == Outcome::too_early) ++again;
    }
    EXPECT_LT(again, 50);
    EXPECT_LT(signs, 5); // of a thousand; three touches must agree before anything is said
}

/// Six quiet readings at 2 a second, then these, in mV.
std::optional<Kick> after_rest(const std::vector<double>& millivolts) {
    KickWatch watch;
    double at = 0.0;
    for (; at <= 3.0; at += 0.5)
        EXPECT_FALSE(watch.offer(display(at, 0.0)));
    EXPECT_TRUE(watch.waits_for_the_touch());
    for (const double each : millivolts) {
        if (const auto kick = watch.offer(display(at, 1e-3 * each))) return kick;
        at += 0.5;
    }
    return std::nullopt;
}

TEST(PolarityKick, CountsFromThreeStepsFiveSpreadsAndThreeTenthsOfAMillivolt) {
    // At rest the display stands still: one step, 0.1 mV, is the spread, and five of them the threshold.
    EXPECT_FALSE(after_rest({0.5, 0.0, 0.0, 0.0}));
    const auto kick = after_rest({0.6, 0.0, 0.0, 0.0});
    ASSERT_TRUE(kick);
    EXPECT_EQ(kick->outcome, Outcome::positive);
    EXPECT_NEAR(kick->peak, 0.6e-3, 1e-9);
    EXPECT_NEAR(1.0 - kick->confidence, 9.87e-10, 1e-11); // Φ(-6), from tables of the normal distribution
}

TEST(PolarityKick, TakesADisplayOutOfRangeForAKick) {
    KickWatch watch;
    double at = 0.0;
    for (; at <= 3.0; at += 0.5)
        watch.offer(display(at, 0.0));
    StampedReading beyond = display(at, 0.0);
    beyond.reading.value.reset();
    beyond.reading.state = State::under_range;
    EXPECT_FALSE(watch.offer(beyond));
    const auto kick = watch.offer(display(at + 1.5, 0.0));
    ASSERT_TRUE(kick);
    EXPECT_EQ(kick->outcome, Outcome::negative);
    EXPECT_EQ(kick->confidence, 1.0);
}

TEST(PolarityKick, PassesOverWhatIsNoVoltage) {
    KickWatch watch;
    StampedReading ohms = display(0.0, 5.0);
    ohms.reading.quantity = Quantity::dc_resistance;
    for (int i = 0; i < 100; ++i)
        EXPECT_FALSE(watch.offer(ohms));
    EXPECT_FALSE(watch.waits_for_the_touch());
}

TEST(PolarityKick, NeedsThreeTouchesThatAgreeAndNoneAgainst) {
    const Kick up{.outcome = Outcome::positive, .peak = 1.0, .confidence = 0.99};
    const Kick weak{.outcome = Outcome::positive, .peak = 0.5, .confidence = 0.9};
    const Kick down{.outcome = Outcome::negative, .peak = -1.0, .confidence = 0.99};
    const Kick none{.outcome = Outcome::none};
    EXPECT_FALSE(agreed_polarity({up, up, none}));
    EXPECT_FALSE(agreed_polarity({up, up, up, down}));
    const auto agreed = agreed_polarity({up, none, weak, up});
    ASSERT_TRUE(agreed);
    EXPECT_EQ(agreed->outcome, Outcome::positive);
    EXPECT_EQ(agreed->confidence, 0.9);
}

} // namespace
} // namespace coilward
