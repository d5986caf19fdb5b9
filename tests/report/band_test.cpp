#include "report/band.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct Drawn {
    const char* what;
    double measured;
    double uncertainty;
    const char* picture;
};

// A range from 10 to 20 on 20 columns: one column is one unit, the left edge is 5.
TEST(Band, DrawsTheReadingOnTheRange) {
    const Drawn table[] = {
        {"within", 15.5, 0.1, "     ├────●────┤    "},
        {"a wide uncertainty", 15.5, 1.0, "     ├──══●══──┤    "},
        {"below", 7.5, 0.1, "  ●  ├─────────┤    "},
        {"far below", 2.0, 0.1, "◀    ├─────────┤    "},
        {"far above", 99.0, 0.1, "     ├─────────┤   ▶"},
        {"on the lower limit", 10.5, 0.1, "     ●─────────┤    "},
    };
    for (const Drawn& drawn : table)
        EXPECT_EQ(band(drawn.measured, drawn.uncertainty, {10.0, 20.0}, 20), drawn.picture) << drawn.what;
}

TEST(Bar, IsAsLongAsItsShareInEighthsOfAColumn) {
    EXPECT_EQ(bar(0.0, 4), "");
    EXPECT_EQ(bar(0.5, 4), "██");
    EXPECT_EQ(bar(1.0, 4), "████");
    EXPECT_EQ(bar(0.53125, 4), "██▏");
    EXPECT_EQ(bar(1.7, 4), "████") << "no longer than its columns";
}

} // namespace
} // namespace coilward
