#include "ngspice.h"
#include "ordinary_coil.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

// Every primitive of the electrical model against ngspice, a general circuit simulator (Debian package), on
// netlists written element by element: magnitude within 0.01 %, phase within 0.01°.

namespace coilward::test {
namespace {

constexpr double share_of_magnitude = 1e-4;
constexpr double degrees_of_phase = 0.01;
const std::vector<double> frequencies_hz{0.0, 100.0, 120.0, 1000.0, 10000.0};

struct Case {
    const char* primitive;
    std::vector<FaultElement> severities;
};

const std::vector<Case> cases{
    {"none", {NoFault{}}},
    {"bridge",
     {Bridge{0.0005, 0.01, 0.01}, Bridge{0.005, 0.1, 0.02}, Bridge{0.01, 1.0, 0.05}, Bridge{0.03, 10.0, 0.03},
      Bridge{0.08, 0.5, 0.2}, Bridge{0.2, 300.0, 0.1}, Bridge{0.5, 2.0, 0.02}, Bridge{0.95, 40.0, 0.3}}},
    {"series element",
     {SeriesElement{0.02, 150.0, 5e-12}, SeriesElement{0.5, 1.5e3, 20e-12}, SeriesElement{0.9, 2e4, 1e-12},
      SeriesElement{0.3, 2.23e5, 30e-12}, SeriesElement{0.7, 3.5e7, 10e-12}, SeriesElement{0.1, 1e9, 2e-12},
      SeriesElement{0.5, 1e11, 20e-12}, SeriesElement{0.98, 1e13, 50e-12}}},
    {"leak",
     {Leak{0.05, 100.0}, Leak{0.3, 1e3}, Leak{0.5, 1e4}, Leak{0.7, 1e5}, Leak{0.95, 1e6}, Leak{0.2, 5e6},
      Leak{0.6, 2e7}, Leak{0.9, 1e8}}},
    {"load",
     {Load{2.5e5, 300e-12, 2.5e5, 22e-9}, Load{5e5, 700e-12, 5e5, 47e-9}, Load{1e6, 0.0, 1e6, 22e-9},
      Load{2e5, 1e-9, 1e4, 47e-9}, Load{1e5, 100e-12, 100.0, 22e-9}, Load{3e5, 500e-12, 5e4, 100e-9},
      Load{1.2e6, 50e-12, 5e5, 1e-9}, Load{8e4, 2e-9, 2e5, 33e-9}}},
};

double degrees(double radians) {
    return radians * 180.0 / std::numbers::pi;
}

class AgainstNgspice : public testing::TestWithParam<std::tuple<std::size_t, CoilPort>> {};

TEST_P(AgainstNgspice, EverySeverityAgrees) {
    const auto [index, port] = GetParam();
    for (const FaultElement& fault : cases[index].severities) {
        const auto expected =
            run_ngspice(netlist(ordinary_coil, fault, port, frequencies_hz), frequencies_hz.size());
        for (std::size_t i = 0; i < frequencies_hz.size(); ++i) {
            const auto ours = impedance(ordinary_coil, fault, port, frequencies_hz[i]);
            SCOPED_TRACE(testing::Message()
                         << cases[index].primitive << ", port " << static_cast<int>(port) << ", "
                         << frequencies_hz[i] << " Hz: " << ours << " against " << expected[i]);
            EXPECT_NEAR(std::abs(ours) / std::abs(expected[i]), 1.0, share_of_magnitude);
            EXPECT_NEAR(degrees(std::arg(ours / expected[i])), 0.0, degrees_of_phase);
        }
    }
}

INSTANTIATE_TEST_SUITE_P(EveryPrimitive, AgainstNgspice,
                         testing::Combine(testing::Range<std::size_t>(0, 5),
                                          testing::Values(CoilPort::leads, CoilPort::start_frame,
                                                          CoilPort::finish_frame, CoilPort::leads_frame)));

} // namespace
} // namespace coilward::test
