#include "serve/pairing.h"

#include <algorithm>
#include <set>
#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct HandClock : Clock {
    std::chrono::milliseconds time{0};

    Moment now() const override { return Moment(time); }

    std::chrono::milliseconds elapsed() const override { return time; }

    void wait(std::chrono::milliseconds span) override { time += span; }
};

struct PairingTest : ::testing::Test {
    HandClock clock;
    std::vector<std::string> shown;
    Pairing pairing{clock, [this](const std::string& code) { shown.push_back(code); }};

    /// Another than the one that is shown.
    std::string wrong() const { return shown.back() == "00000000" ? "00000001" : "00000000"; }
};

TEST_F(PairingTest, ShowsEightDigits) {
    ASSERT_EQ(shown.size(), 1U);
    EXPECT_EQ(shown[0].size(), 8U);
    EXPECT_TRUE(std::ranges::all_of(shown[0], [](char c) { return c >= '0' && c <= '9'; }));
}

TEST_F(PairingTest, ACodeIsGoodForOneDevice) {
    const std::string code = shown.back();
    const auto first = pairing.try_code(code);
    EXPECT_EQ(first.outcome, Pairing::Outcome::paired);
    EXPECT_TRUE(pairing.knows(first.device));
    EXPECT_NE(shown.back(), code);
    EXPECT_EQ(pairing.try_code(code).outcome, Pairing::Outcome::wrong);
    const auto second = pairing.try_code(shown.back());
    EXPECT_EQ(second.outcome, Pairing::Outcome::paired);
    EXPECT_NE(second.device, first.device);
    EXPECT_FALSE(pairing.knows(""));
    EXPECT_FALSE(pairing.knows(first.device.substr(1)));
}

TEST_F(PairingTest, FiveWrongCodesShutTheDoorForAMinute) {
    const std::string before = shown.back();
    for (int i = 0; i < 5; ++i)
        EXPECT_EQ(pairing.try_code(wrong()).outcome, Pairing::Outcome::wrong);
    EXPECT_NE(shown.back(), before); // what was tried against is void
    EXPECT_EQ(pairing.try_code(shown.back()).outcome, Pairing::Outcome::too_many);
    clock.wait(std::chrono::milliseconds(59'999));
    EXPECT_EQ(pairing.try_code(shown.back()).outcome, Pairing::Outcome::too_many);
    clock.wait(std::chrono::milliseconds(1));
    EXPECT_EQ(pairing.try_code(shown.back()).outcome, Pairing::Outcome::paired);
}

} // namespace
} // namespace coilward
