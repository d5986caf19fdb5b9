#include "messages.h"
#include "metrology/accuracy.h"
#include "metrology/half_width.h"

#include <cmath>

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct MeterExample {
    double reading;
    Accuracy accuracy;
    double half_width;
    double standard_uncertainty; // computed, a / √3
    const char* source;
};

const MeterExample meter_examples[] = {
    {2.0, {0.08, 2, 0.001}, 0.0036, 0.002078460969, "Sanwa PC510a example: 1.9964 to 2.0036 V"},
    {32.0, {2.5, 3, 0.01}, 0.83, 0.4792007234, "university physics laboratory notes: 0.83 V"},
    {0.09, {2.5, 3, 0.01}, 0.03225, 0.01861954618, "the same notes: 0.03225 V"},
    {100.0, {0.8, 2, 0.1}, 1.0, 0.5773502692, "a meter maker's accuracy page: 99.0 to 101.0 V"},
    {2.0, {0.5, 3, 0.001}, 0.013, 0.007505553499, "the same maker's error page: 0.013 V"},
    {166.51,
     {0.1, 4, 0.01},
     0.20651,
     0.1192286041,
     "university statistics page: (0.1 % + 4), 0.04 mV of counts"},
    {1.4869, {0.5, 1, 0.0001}, 0.0075345, 0.004350045603, "the same page: (0.5 % + 1), 0.0001 A a count"},
    // A book on interfacing prints 0.0001 V for the count here; on a 2000-count 2 V range it is 0.001 V.
    {1.453, {0.1, 1, 0.001}, 0.002453, 0.00141624021, "computed; see above"},
    {6350.0, {0.2, 2, 1.0}, 14.7, 8.487048957, "computed; accuracy class of the same statistics page"},
};

TEST(MeterAccuracy, ReproducesPublishedExamples) {
    for (const auto& row : meter_examples) {
        const double a = half_width(row.accuracy, row.reading);
        EXPECT_NEAR(a, row.half_width, 1e-12) << row.source;
        EXPECT_NEAR(half_width_to_standard_uncertainty(a), row.standard_uncertainty,
                    1e-9 * row.half_width + 1e-12)
            << row.source;
        EXPECT_EQ(half_width(row.accuracy, -row.reading), a) << row.source;
    }
}

struct LcrExample {
    double inductance_h;
    double resistance_ohm;
    double frequency_hz;
    double speed_factor;
    double quality_factor;
    double percent;
    double half_width_h;
    double standard_uncertainty_h;
};

// Computed from the formula of the GW Instek LCR-800 series manual p. 39 (L: 0.03 % + 0.02 % …), Ka = Kc = 0,
// middle range.
const LcrExample lcr_examples[] = {
    {2.2, 6000, 1000, 0, 2.30383461, 0.05868118, 1.29098593e-03, 7.45351075e-04},
    {2.2, 6000, 120, 0, 0.27646015, 0.12234316, 2.69154943e-03, 1.55396679e-03},
    {2.2, 6000, 1000, 10, 2.30383461, 0.34549297, 7.60084525e-03, 4.38835005e-03},
    {4.5, 8200, 1000, 3, 3.44808950, 0.13320125, 5.99405643e-03, 3.46067009e-03},
};

TEST(LcrAccuracy, DependsOnQualityFactorAndFrequency) {
    for (const auto& row : lcr_examples) {
        const double q = series_quality_factor(row.frequency_hz, row.inductance_h, row.resistance_ohm);
        EXPECT_NEAR(q, row.quality_factor, 1e-8);
        const LcrAccuracy accuracy{
            .fixed_percent = 0.03, .scaled_percent = 0.02, .speed_factor = row.speed_factor};
        const double x = q * row.resistance_ohm;
        const double percent = lcr_accuracy_percent(accuracy, ImpedancePart::reactive, x, q);
        EXPECT_NEAR(percent, row.percent, 5e-9);
        const double a = percent / 100 * row.inductance_h;
        EXPECT_NEAR(a / row.half_width_h, 1.0, 1e-8);
        EXPECT_NEAR(half_width_to_standard_uncertainty(a) / row.standard_uncertainty_h, 1.0, 1e-8);
    }
}

TEST(LcrAccuracy, OfTheResistanceGrowsWithQ) {
    // Same page: R: … (1 + Q). By hand: 0.03 + 0.02 · (1 + 3) = 0.11.
    const LcrAccuracy accuracy{.fixed_percent = 0.03, .scaled_percent = 0.02};
    EXPECT_NEAR(lcr_accuracy_percent(accuracy, ImpedancePart::resistive, 1000, 3.0), 0.11, 1e-12);
}

TEST(LcrAccuracy, GrowsOutsideTheMiddleRange) {
    // By hand from the same formula, with Q = 1, Ka = 2, Kb = 3, Kc = 1, Ymin = 10 ohm and Ymax = 100 kohm.
    const LcrAccuracy accuracy{.fixed_percent = 0.03,
                               .scaled_percent = 0.02,
                               .voltage_factor = 2,
                               .speed_factor = 3,
                               .cable_factor = 1,
                               .middle_range_from_ohm = 10,
                               .middle_range_to_ohm = 1e5};
    const auto percent_at = [&](double ohm) {
        return lcr_accuracy_percent(accuracy, ImpedancePart::reactive, ohm, 1.0);
    };
    EXPECT_NEAR(percent_at(1000), 0.03 + 0.02 * 3 * 2 * 5, 1e-12);
    EXPECT_NEAR(percent_at(5e5), 0.03 + 0.02 * 5 * 2 * 5, 1e-12);
    EXPECT_NEAR(percent_at(2.5), 0.03 + 0.02 * 4 * 2 * 5, 1e-12);
}

TEST(LowQualityFactor, MultipliesTheBasicAccuracy) {
    // √(1 + D²) where D > 0.1 and √(1 + Q²) where Q > 0.1; by hand with 3-4-5 triangles.
    EXPECT_DOUBLE_EQ(low_quality_factor_multiplier(ImpedancePart::reactive, 0.75), 5.0 / 3.0);
    EXPECT_DOUBLE_EQ(low_quality_factor_multiplier(ImpedancePart::resistive, 0.75), 1.25);
    EXPECT_EQ(low_quality_factor_multiplier(ImpedancePart::reactive, 20.0), 1.0);
    EXPECT_EQ(low_quality_factor_multiplier(ImpedancePart::resistive, 0.05), 1.0);
}

TEST(Accuracy, RefusesWhatHasNoSpecification) {
    EXPECT_EQ(message_of([] { low_quality_factor_multiplier(ImpedancePart::reactive, 0.0); }),
              "a quality factor of 0 has no accuracy specification; give one above 0");
    EXPECT_EQ(message_of([] { lcr_accuracy_percent({}, ImpedancePart::reactive, -5.0, 1.0); }),
              "an impedance of -5 has no accuracy specification; give one above 0");
    EXPECT_EQ(message_of([] { series_quality_factor(1000, 2.2, 0.0); }),
              "a resistance of 0 has no accuracy specification; give one above 0");
}

} // namespace
} // namespace coilward
