#include "messages.h"
#include "metrology/half_width.h"

#include <cmath>

#include <gtest/gtest.h>

namespace coilward {
namespace {

// Factors computed to ten digits from the rules of JCGM 100:2008 and JCGM 101:2008.
const struct {
    ErrorShape shape;
    double factor;
} factors[] = {
    {ErrorShape::rectangular, 0.5773502692}, {ErrorShape::triangular, 0.4082482905},
    {ErrorShape::arcsine, 0.7071067812},     {ErrorShape::normal_k2, 0.5},
    {ErrorShape::normal_95, 0.5102134569},
};

TEST(HalfWidth, BecomesAStandardUncertaintyByItsShape) {
    for (const auto& row : factors) {
        EXPECT_NEAR(half_width_to_standard_uncertainty(1.0, row.shape), row.factor, 6e-11);
        EXPECT_NEAR(half_width_to_standard_uncertainty(14.7, row.shape), 14.7 * row.factor, 1e-9);
    }
    EXPECT_EQ(half_width_to_standard_uncertainty(3.0),
              half_width_to_standard_uncertainty(3.0, ErrorShape::rectangular));
}

TEST(Resolution, IsARectangleOfOneStep) {
    EXPECT_NEAR(resolution_to_standard_uncertainty(1.0), 0.2886751346, 6e-11);
}

TEST(CombinedUncertainty, IsTheRootOfTheSumOfSquares) {
    EXPECT_DOUBLE_EQ(combined_standard_uncertainty({3.0, 4.0}), 5.0);
    EXPECT_DOUBLE_EQ(combined_standard_uncertainty({2.0, 3.0, 6.0}), 7.0);
    EXPECT_DOUBLE_EQ(combined_standard_uncertainty({0.5}), 0.5);
    EXPECT_EQ(combined_standard_uncertainty({}), 0.0);
    EXPECT_GT(combined_standard_uncertainty({1e-200, 1e-200}), 1.4e-200);
}

TEST(HalfWidth, RefusesWhatIsNoWidth) {
    EXPECT_EQ(message_of([] { half_width_to_standard_uncertainty(-1.0); }),
              "a half-width of -1 is impossible; give 0 or more");
    EXPECT_EQ(message_of([] { resolution_to_standard_uncertainty(INFINITY); }),
              "a resolution of inf is impossible; give 0 or more");
    EXPECT_EQ(message_of([] {
                  combined_standard_uncertainty({1.0, std::nan("")});
              }),
              "a standard uncertainty of nan is impossible; give 0 or more");
}

} // namespace
} // namespace coilward
