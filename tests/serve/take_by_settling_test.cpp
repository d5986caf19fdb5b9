#include "serve/take_by_settling.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// Two readings a second; nothing is over-range.
class Display {
public:
    StampedReading shows(std::optional<double> ohm, Quantity quantity = Quantity::dc_resistance) {
        at_ += std::chrono::milliseconds(500);
        return {.at = at_,
                .reading = {.quantity = quantity, .state = ohm ? State::ok : State::over_range, .value = ohm},
                .resolution = 1.0};
    }

private:
    Moment at_{};
};

TEST(TakeBySettling, TakesWhatMovedAndCameToRest) {
    Display display;
    TakeBySettling taking(Quantity::dc_resistance);
    for (int i = 0; i < 20; ++i)
        EXPECT_FALSE(taking.offer(display.shows(std::nullopt))) << "open probes are no coil";
    EXPECT_FALSE(taking.offer(display.shows(9000.0)));
    EXPECT_FALSE(taking.offer(display.shows(6150.0)));
    EXPECT_TRUE(taking.offer(display.shows(6151.0)));
}

TEST(TakeBySettling, LeavesWhatNeverMovedToThePerson) {
    Display display;
    TakeBySettling taking(Quantity::dc_resistance);
    for (int i = 0; i < 20; ++i)
        EXPECT_FALSE(taking.offer(display.shows(6150.0 + i % 2)));
}

TEST(TakeBySettling, DoesNotTakeWhatWanders) {
    Display display;
    TakeBySettling taking(Quantity::dc_resistance);
    taking.offer(display.shows(std::nullopt));
    for (int i = 0; i < 20; ++i)
        EXPECT_FALSE(taking.offer(display.shows(6000.0 + 500.0 * (i % 2))));
}

TEST(TakeBySettling, LooksAtTheQuantityThatIsAskedFor) {
    Display display;
    TakeBySettling taking(Quantity::inductance);
    taking.offer(display.shows(2.4, Quantity::inductance));
    for (int i = 0; i < 10; ++i)
        EXPECT_FALSE(taking.offer(display.shows(i < 3 ? 100.0 : 6000.0, Quantity::ac_resistance)));
}

} // namespace
} // namespace coilward
