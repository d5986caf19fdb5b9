#include "healthy_population.h"
#include "pickups.h"

#include <numbers>
#include <set>
#include <string>

#include <gtest/gtest.h>

namespace population {
namespace {

double henry(const Network& network, int from, int to) {
    constexpr double hz = 50.0; // far below resonance and eddy currents
    return impedance_between(network, from, to, hz).imag() / (2.0 * std::numbers::pi * hz);
}

// In series, L = L1 + L2 ± 2 k √(L1 L2): any textbook on circuits.
TEST(Pickups, AddTheirMutualInductanceTwiceWithItsSign) {
    Random random(4, 0);
    Coil first = draw_healthy(constructions().front(), random).coil;
    Coil second = draw_healthy(constructions().front(), random).coil;
    first.eddy.clear();
    second.eddy.clear();
    first.self_capacitance_f = second.self_capacitance_f = 1e-15;
    first.frame_capacitance_f = second.frame_capacitance_f = 1e-15;
    for (const double coupling : {0.15, -0.15}) {
        const PairCircuit pair = pair_of(first, {}, second, {}, coupling, 20.0);
        const double one = henry(pair.network, pair.first_start, pair.first_finish);
        const double other = henry(pair.network, pair.second_start, pair.second_finish);
        Network whole = pair.network;
        whole.elements.push_back({pair.first_finish, pair.second_start, 1e4, 0.0});
        const double both = henry(whole, pair.first_start, pair.second_finish);
        EXPECT_NEAR(both, one + other + 2.0 * coupling * std::sqrt(one * other), 1e-3 * both);
        EXPECT_NEAR(impedance_between(whole, pair.first_start, pair.second_finish, 0.0).real(),
                    first.turns * first.ohm_per_turn_20 + second.turns * second.ohm_per_turn_20, 0.01);
    }
}

TEST(Pickups, EveryStateIsDrawnWithItsReadings) {
    std::set<std::string> drawn_states;
    for (int i = 0; i < 60; ++i) {
        const DrawnPickup drawn = draw_pickup(8, i);
        drawn_states.insert(drawn.label["state"].get<std::string>());
        std::set<std::string> coils;
        for (const auto& reading : drawn.readings["readings"])
            coils.insert(reading.value("coil", "bench"));
        EXPECT_EQ(coils, (std::set<std::string>{"bench", "screw", "slug", "whole"}));
    }
    EXPECT_EQ(drawn_states.size(), pickup_states().size());
    EXPECT_EQ(draw_pickup(8, 3).readings, draw_pickup(8, 3).readings);
}

} // namespace
} // namespace population
