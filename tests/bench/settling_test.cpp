#include "bench/settling.h"

#include <cmath>
#include <optional>
#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;

constexpr double open = INFINITY; ///< in the tables: the meter shows over range

StampedReading shown(double value, int at_ms, double resolution) {
    StampedReading stamped;
    stamped.at = Moment(milliseconds(at_ms));
    stamped.reading.quantity = Quantity::dc_resistance;
    stamped.resolution = resolution;
    if (std::isinf(value))
        stamped.reading.state = State::over_range;
    else
        stamped.reading.value = value;
    return stamped;
}

struct Course {
    const char* what;
    std::vector<double> values; ///< one every 500 ms
    std::optional<State> ends;  ///< nothing: not settled yet
    double value;
    double spread;
};

TEST(Settling, OffersAReadingWhenItHasStoppedMoving) {
    // Rule: four in a row within two steps (of 1 ohm) or 0.05 % of their mean; unstable after eight seconds.
    const std::vector<Course> table{
        {"three are not enough", {6112, 6112, 6112}, std::nullopt, 0, 0},
        {"four alike", {6112, 6112, 6112, 6112}, State::ok, 6112, 0},
        {"within two steps", {6110, 6112, 6114, 6112}, State::ok, 6112, 0},
        {"creeping in from a touch", {5000, 5800, 6050, 6105, 6110, 6111, 6112, 6111}, State::ok, 6111, 0},
        {"still moving", {5000, 5800, 6050, 6105, 6110}, std::nullopt, 0, 0},
        {"open", {open, open, open, open}, State::over_range, 0, 0},
        {"a clip goes on", {open, open, 6111, 6111, 6111, 6111}, State::ok, 6111, 0},
        {"a bad contact",
         {6000, 6500, 6100, 7000, 6000, 6500, 6100, 7000, 6000, 6500, 6100, 7000, 6000, 6500, 6100, 7000,
          6000},
         State::unstable,
         6400,
         500},
        {"a contact that opens and closes",
         {open, 6000, open, 6000, open, 6000, open, 6000, open, 6000, open, 6000, open, 6000, open, 6000,
          open},
         State::unstable,
         6000,
         6000},
    };
    for (const Course& course : table) {
        Settling settling;
        std::optional<Reading> last;
        for (std::size_t i = 0; i < course.values.size(); ++i)
            last = settling.offer(shown(course.values[i], static_cast<int>(i) * 500, 1.0));
        ASSERT_EQ(last.has_value(), course.ends.has_value()) << course.what;
        if (!last) continue;
        EXPECT_EQ(last->state, *course.ends) << course.what;
        EXPECT_DOUBLE_EQ(last->value.value_or(0.0), course.value) << course.what;
        EXPECT_DOUBLE_EQ(last->spread.value_or(0.0), course.spread) << course.what;
    }
}

TEST(Settling, AddsTheScatterToTheMetersUncertainty) {
    // 6110, 6112, 6114, 6112: sample deviation sqrt(8/3), of the mean sqrt(8/12) = 0.81650; with 3: sqrt(9 +
    // 0.66667).
    Settling settling;
    std::optional<Reading> settled;
    for (const double value : {6110.0, 6112.0, 6114.0, 6112.0}) {
        StampedReading stamped = shown(value, 0, 1.0);
        stamped.reading.standard_uncertainty = 3.0;
        settled = settling.offer(stamped);
    }
    ASSERT_TRUE(settled);
    EXPECT_NEAR(*settled->standard_uncertainty, 3.109126, 1e-6);
}

TEST(Settling, ClaimsNoUncertaintyFromTheScatterAlone) {
    Settling settling;
    std::optional<Reading> settled;
    for (int i = 0; i < 4; ++i)
        settled = settling.offer(shown(6112.0, i, 1.0));
    ASSERT_TRUE(settled);
    EXPECT_FALSE(settled->standard_uncertainty);
}

TEST(Settling, BeginsAnewAfterEachSettledReading) {
    Settling settling;
    int settled = 0;
    for (int i = 0; i < 12; ++i)
        if (settling.offer(shown(6112.0, i * 500, 1.0))) ++settled;
    EXPECT_EQ(settled, 3);
}

/// One reading every 500 ms until one has settled.
std::optional<Reading> watched(const std::vector<double>& values, int* taken) {
    Settling settling({.watch_for = milliseconds(3000)});
    for (*taken = 0; *taken < static_cast<int>(values.size()); ++*taken)
        if (auto settled = settling.offer(shown(values[static_cast<std::size_t>(*taken)], *taken * 500, 1.0)))
            return settled;
    return std::nullopt;
}

TEST(Settling, WatchesAContactThatIsMovedForItsWholeTime) {
    int taken = 0;
    const auto steady = watched(std::vector<double>(20, 6112.0), &taken);
    ASSERT_TRUE(steady);
    EXPECT_EQ(taken, 6) << "three seconds, and not after four readings";
    EXPECT_EQ(steady->state, State::ok);
    const auto jumped = watched({6112, 6112, 6112, 6112, 6900, 6112, 6112, 6112}, &taken);
    ASSERT_TRUE(jumped);
    EXPECT_EQ(jumped->state, State::unstable) << "one jump among steady readings";
    EXPECT_DOUBLE_EQ(*jumped->spread, 394.0);
    const auto lost = watched({6112, 6112, open, 6112, 6112, 6112, 6112}, &taken);
    ASSERT_TRUE(lost);
    EXPECT_EQ(lost->state, State::unstable);
}

} // namespace
} // namespace coilward
