#include "metrology/global_risk.h"

#include <limits>
#include <stdexcept>

#include <gtest/gtest.h>

namespace coilward {
namespace {

// The resistor example of JCGM 106:2012, 9.5: 1500 ohm within ± 0.2, made with a deviation of 0.12, measured
// with 0.04. Inputs and the acceptance limits ± 0.18 as in a public program that reproduces it (function
// konform_beispiel); the guide prints 1 % and 7 %, and 0.90 as the share that conforms. The digits are an
// independent quadrature's.
struct ResistorRow {
    double acceptance;
    double consumer;
    double producer;
};

TEST(GlobalRisk, OfTheResistorsOfJcgm106) {
    const ResistorRow rows[] = {{0.20, 0.01894221, 0.03720780},
                                {0.18, 0.00987829, 0.06902651},
                                {0.16, 0.00433407, 0.11465658},
                                {0.24, 0.04489817, 0.00709703}};
    for (const auto& [acceptance, consumer, producer] : rows) {
        const GlobalRisk risk =
            global_risk({1500.0, 0.12}, 0.04, {1499.8, 1500.2}, {1500.0 - acceptance, 1500.0 + acceptance});
        EXPECT_NEAR(risk.conforming, 0.90441930, 1e-8);
        EXPECT_NEAR(risk.consumer, consumer, 1e-8) << acceptance;
        EXPECT_NEAR(risk.producer, producer, 1e-8) << acceptance;
    }
}

// Published probabilities of false acceptance and rejection (Deaver, pages 7 and 10, as quoted in the tests
// of a calibration laboratory's uncertainty program, sandialabs/suncal): specification ± SL deviations, a
// calibration TUR times better, acceptance at GB of the specification.
struct DeaverRow {
    double specification, ratio, guard, accepted, rejected, tolerance;
};

TEST(GlobalRisk, OfPublishedCalibrations) {
    const DeaverRow rows[] = {{2.0, 4.0, 1.0, 0.008, 0.015, 0.0005},
                              {2.5, 4.0, 1.0, 0.0025, 0.00531939, 0.0001},
                              {2.5, 1.0, 1.0, 0.005, 0.06940411, 0.0005},
                              {2.0, 2.0, 0.91, 0.008, 0.066, 0.0005}};
    for (const auto& [specification, ratio, guard, accepted, rejected, tolerance] : rows) {
        const GlobalRisk risk = global_risk({0.0, 1.0}, 1.0 / ratio, {-specification, specification},
                                            {-guard * specification, guard * specification});
        EXPECT_NEAR(risk.consumer, accepted, tolerance) << specification << ' ' << ratio;
        EXPECT_NEAR(risk.producer, rejected, tolerance) << specification << ' ' << ratio;
    }
}

TEST(GlobalRisk, OfASingleLimit) {
    const double infinity = std::numeric_limits<double>::infinity();
    // A process whose middle is at the limit, and a measurement as wide as it: by symmetry an eighth of all
    // is accepted though it is below, for the angle between the two lines is 45° of 360°.
    const GlobalRisk risk = global_risk({5.0, 1.0}, 1.0, {5.0, infinity}, {5.0, infinity});
    EXPECT_NEAR(risk.conforming, 0.5, 1e-12);
    EXPECT_NEAR(risk.consumer, 0.125, 1e-9);
    EXPECT_NEAR(risk.producer, 0.125, 1e-9);
}

TEST(GlobalRisk, NeedsSpreadAndOrder) {
    EXPECT_THROW(global_risk({0.0, 0.0}, 1.0, {-1.0, 1.0}, {-1.0, 1.0}), std::invalid_argument);
    EXPECT_THROW(global_risk({0.0, 1.0}, 0.0, {-1.0, 1.0}, {-1.0, 1.0}), std::invalid_argument);
    EXPECT_THROW(global_risk({0.0, 1.0}, 1.0, {1.0, -1.0}, {-1.0, 1.0}), std::invalid_argument);
    EXPECT_THROW(global_risk({0.0, 1.0}, 1.0, {-1.0, 1.0}, {1.0, 1.0}), std::invalid_argument);
}

} // namespace
} // namespace coilward
