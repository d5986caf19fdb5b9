#include "diagnosis/polarity_finding.h"
#include "rules/pickup_type.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// The sign of a kick is winding sense times magnet (Faraday's law: the flux's sign is the magnet's, the
// voltage's that of flux and winding); a hum from afar has no magnet in it.

namespace coilward {
namespace {

using ::testing::HasSubstr;

std::vector<Reading> read(std::optional<Polarity> kick, std::optional<Polarity> magnet) {
    std::vector<Reading> readings;
    if (kick) readings.push_back({.quantity = Quantity::polarity, .polarity = kick});
    if (magnet) readings.push_back({.quantity = Quantity::magnet_pole, .polarity = magnet});
    return readings;
}

constexpr auto right = Polarity::as_expected;
constexpr auto turned = Polarity::reversed;
constexpr auto none = Polarity::none;

struct Row {
    std::optional<Polarity> kick;
    std::optional<Polarity> magnet;
    std::optional<Polarity> winding;
    const char* says;
};

const Row rows[] = {
    {right, right, right, "winding and magnet are as they should be"},
    {turned, right, turned, "the leads are exchanged, or the coil is wound the other way"},
    {turned, turned, right, "the magnet is turned; the winding is right"},
    {right, turned, turned, "both the other way round, as in a partner made to cancel hum"},
    {turned, {}, {}, "leads exchanged, or the magnet turned; a compass tells which"},
    {right, {}, {}, "the kick is as it should be"},
    {none, right, {}, "there is no kick"},
    {{}, none, {}, "no magnet"},
    {{}, turned, {}, "the other pole up"},
};

TEST(PolarityFinding, ToldByKickAndCompass) {
    for (const Row& row : rows) {
        const auto found = polarity_finding(read(row.kick, row.magnet), nullptr);
        ASSERT_TRUE(found) << row.says;
        EXPECT_THAT(found->says, HasSubstr(row.says));
        EXPECT_EQ(found->winding, row.winding) << row.says;
        EXPECT_EQ(found->partner.empty(), !row.winding) << row.says;
    }
    EXPECT_FALSE(polarity_finding({}, nullptr));
}

// A coil wound clockwise with its north pole up wants a partner wound counter-clockwise with its south pole
// up.
TEST(PolarityFinding, SaysWhatAHumCancellingPartnerNeeds) {
    const CoilPlace place{.name = "slug", .winding_sense = 1, .magnet_polarity = 1};
    const auto partner = [&](Polarity kick, Polarity magnet) {
        return polarity_finding(read(kick, magnet), &place)->partner;
    };
    EXPECT_THAT(partner(right, right), HasSubstr("wound counter-clockwise and has its south pole up"));
    EXPECT_THAT(partner(turned, right), HasSubstr("wound clockwise and has its south pole up"));
    EXPECT_THAT(partner(turned, turned), HasSubstr("wound counter-clockwise and has its north pole up"));
    EXPECT_THAT(partner(right, turned), HasSubstr("wound clockwise and has its north pole up"));
}

} // namespace
} // namespace coilward
