#include "metrology/correlated.h"

#include <cmath>
#include <functional>
#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

// JCGM 100:2008, H.2: five simultaneous observations of voltage (V), current (A) and phase angle (rad) of a
// coil at one frequency, table H.2; asked for are its resistance, reactance and impedance. Data as quoted by
// the examples of a national institute's uncertainty library (METAS UncLib, "Gum H2").
const std::vector<std::vector<double>> observations{
    {5.007, 19.663e-3, 1.0456}, {4.994, 19.639e-3, 1.0438}, {5.005, 19.640e-3, 1.0468},
    {4.990, 19.685e-3, 1.0428}, {4.999, 19.678e-3, 1.0433},
};

struct Expected {
    double value;
    double tolerance;
};

TEST(Correlated, MeansAreThoseOfGumTableH2) {
    const Correlated means = means_of(observations);
    // The rounded inputs that another institute's documentation prints (MSL GTC, "Resistance and reactance
    // measurement"); a unit of the last printed digit.
    const Expected values[] = {{4.9990, 5e-5}, {0.019661, 5e-7}, {1.04446, 5e-6}};
    const Expected uncertainties[] = {{0.0032, 5e-5}, {9.5e-6, 5e-8}, {0.00075, 5e-6}};
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_NEAR(means.values[i], values[i].value, values[i].tolerance) << i;
        EXPECT_NEAR(means.standard_uncertainty(i), uncertainties[i].value, uncertainties[i].tolerance) << i;
    }
    EXPECT_NEAR(means.correlation(0, 1), -0.36, 0.005);
    EXPECT_NEAR(means.correlation(0, 2), 0.86, 0.005);
    EXPECT_NEAR(means.correlation(1, 2), -0.65, 0.005);
}

/// R = V/I·cos φ, X = V/I·sin φ, Z = V/I, and their derivatives.
Correlated impedance_of(const Correlated& means) {
    const double v = means.values[0];
    const double i = means.values[1];
    const double phi = means.values[2];
    const double z = v / i;
    const std::vector<std::vector<double>> sensitivities{
        {std::cos(phi) / i, -z / i * std::cos(phi), -z * std::sin(phi)},
        {std::sin(phi) / i, -z / i * std::sin(phi), z * std::cos(phi)},
        {1.0 / i, -z / i, 0.0},
    };
    return propagated(means, {z * std::cos(phi), z * std::sin(phi), z}, sensitivities);
}

TEST(Correlated, ResultsAreThoseOfGumExampleH2) {
    const Correlated results = impedance_of(means_of(observations));
    // Resistance, reactance, impedance: GTC's 127.732(70), 219.85(30), 254.26(24), from inputs that are
    // rounded before; and, beside it, the same arithmetic with forty digits from the raw data, which is what
    // is asserted to a unit of the third decimal, since the guide prints three.
    const Expected values[] = {{127.732, 0.001}, {219.847, 0.001}, {254.260, 0.001}};
    const Expected uncertainties[] = {{0.07107, 0.001}, {0.29558, 0.001}, {0.23634, 0.001}};
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(results.values[k], values[k].value, values[k].tolerance) << k;
        EXPECT_NEAR(results.standard_uncertainty(k), uncertainties[k].value, uncertainties[k].tolerance) << k;
    }
    EXPECT_NEAR(results.correlation(0, 1), -0.588, 0.001);
    EXPECT_NEAR(results.correlation(0, 2), -0.485, 0.001);
    EXPECT_NEAR(results.correlation(1, 2), 0.993, 0.001);
}

TEST(Correlated, WithoutCorrelationIsTheRootSumOfSquares) {
    const double values[] = {3.0, 5.0};
    const double uncertainties[] = {0.3, 0.4};
    const std::vector<std::vector<double>> difference{{-1.0, 1.0}};
    const Correlated result = propagated(independent(values, uncertainties), {2.0}, difference);
    EXPECT_DOUBLE_EQ(result.standard_uncertainty(0), 0.5); // 3-4-5
}

TEST(Correlated, RefusesWhatDoesNotFit) {
    const auto refused = [](const std::function<void()>& work) {
        EXPECT_THROW(work(), std::invalid_argument);
    };
    const std::vector<std::vector<double>> one{{1.0, 2.0}};
    const std::vector<std::vector<double>> uneven{{1.0, 2.0}, {1.0}};
    refused([&] { means_of(one); });
    refused([&] { means_of(uneven); });
    const double values[] = {1.0};
    refused([&] { independent(values, {}); });
    refused([&] { propagated(independent(values, values), {1.0}, one); });
}

} // namespace
} // namespace coilward
