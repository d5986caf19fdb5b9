#include "network.h"

#include <numbers>

#include <gtest/gtest.h>

namespace population {
namespace {

double omega(double frequency_hz) {
    return 2.0 * std::numbers::pi * frequency_hz;
}

/// Two coupled coils, the second shorted: Z = R1 + jωL1 + (ωM)² / (R2 + jωL2), textbook coupled circuit.
struct CoupledRow {
    double l1, r1, l2, r2, mutual;
    double series_ohm, series_henry;
};

/// From a published-formula table, each row computed two ways (reflected impedance; 2×2 mesh), at 1 kHz.
constexpr CoupledRow coupled_rows[] = {
    {2.2, 6000.0, 2.2e-6, 0.02, 0.00176, 10137.8246213, 1.74483929166},
    {2.2, 6000.0, 3.4e-8, 0.007, 0.000164097531974, 6151.72651947, 2.19926304262},
    {2.2, 6000.0, 0.002, 20.0, 0.0596992462264, 11043.8298182, 1.69561701818},
    {1.0, 100.0, 0.01, 0.0, 0.095, 100.0, 0.0975},
};

Network one_section(double ohm, double henry) {
    Network network;
    network.section_from = {network.new_node()};
    network.section_to = {network.new_node()};
    network.section_ohm = Eigen::VectorXd::Constant(1, ohm);
    network.section_henry = Eigen::MatrixXd::Constant(1, 1, henry);
    return network;
}

TEST(Network, ClosedLoopActsAsACoupledShortedTurn) {
    for (const CoupledRow& row : coupled_rows) {
        Network network = one_section(row.r1, row.l1);
        network.loops.push_back({row.r2, row.l2, Eigen::VectorXd::Constant(1, row.mutual)});
        const auto impedance = impedance_between(network, 1, 0, 1000.0);
        EXPECT_NEAR(impedance.real(), row.series_ohm, 1e-6 * row.series_ohm);
        EXPECT_NEAR(impedance.imag() / omega(1000.0), row.series_henry, 1e-6 * row.series_henry);
    }
}

TEST(Network, ShortedSectionActsAsACoupledShortedTurn) {
    for (const CoupledRow& row : coupled_rows) {
        Network network = one_section(row.r1, row.l1);
        const int from = network.new_node();
        const int to = network.new_node();
        network.section_from.push_back(from);
        network.section_to.push_back(to);
        network.section_ohm = Eigen::Vector2d(row.r1, row.r2);
        network.section_henry.resize(2, 2);
        network.section_henry << row.l1, row.mutual, row.mutual, row.l2;
        network.elements.push_back({from, to, 1e7, 0.0}); // the short
        network.elements.push_back({0, from, 1e-9, 0.0}); // so that the second coil does not float
        const auto impedance = impedance_between(network, 1, 0, 1000.0);
        EXPECT_NEAR(impedance.real(), row.series_ohm, 1e-4 * row.series_ohm);
        EXPECT_NEAR(impedance.imag() / omega(1000.0), row.series_henry, 1e-4 * row.series_henry);
    }
}

/// 2.2 H and 6 kohm with 100 pF across at 1 kHz: 2.21558 H in series, by Z = (R + jωL) ∥ 1/jωC.
TEST(Network, CapacitanceAcrossRaisesTheInductance) {
    Network network = one_section(6000.0, 2.2);
    network.elements.push_back({0, 1, 0.0, 100e-12});
    EXPECT_NEAR(impedance_between(network, 1, 0, 1000.0).imag() / omega(1000.0), 2.21558, 5e-6);
}

TEST(Network, DirectCurrentSeesResistanceOnly) {
    Network network = one_section(6000.0, 2.2);
    network.elements.push_back({0, 1, 1.0 / 12000.0, 100e-12});
    const auto impedance = impedance_between(network, 1, 0, 0.0);
    EXPECT_NEAR(impedance.real(), 4000.0, 1e-6);
    EXPECT_EQ(impedance.imag(), 0.0);
}

} // namespace
} // namespace population
