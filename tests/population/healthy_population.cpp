#include "healthy_population.h"

#include <array>
#include <numbers>

namespace population {
namespace {

// Resistance per metre at 20 °C: ASTM B258 diameters and 100 % IACS copper, exact diameter (42, 44 AWG) or
// the rounded nominal one (43 AWG: 0.0022 in; 38 AWG: 0.0040 in).
constexpr std::array<Construction, 6> all_constructions{{
    {"sim-rod-42",
     "Simulated single coil, six rod magnets, 42 AWG",
     42,
     5.4716,
     0.022,
     {7900, 0.012},
     {0.1370, 0.008},
     {3.85e-8, 0.030},
     {105e-12, 0.14},
     {40e-12, 0.20},
     {0.11, 0.15},
     {45e-6, 0.10},
     true},
    {"sim-rod-43",
     "Simulated single coil, six rod magnets, 43 AWG",
     43,
     7.0302,
     0.025,
     {8300, 0.015},
     {0.1370, 0.010},
     {3.95e-8, 0.035},
     {115e-12, 0.16},
     {38e-12, 0.22},
     {0.10, 0.18},
     {45e-6, 0.12},
     false},
    {"sim-wide-steel-42",
     "Simulated wide single coil, steel poles, 42 AWG",
     42,
     5.4716,
     0.022,
     {10000, 0.010},
     {0.1460, 0.008},
     {6.6e-8, 0.040},
     {120e-12, 0.14},
     {55e-12, 0.20},
     {0.30, 0.12},
     {70e-6, 0.12},
     true},
    {"sim-dual-one-42",
     "Simulated coil of a dual-coil pickup, slugs and cover, 42 AWG",
     42,
     5.4716,
     0.025,
     {5000, 0.015},
     {0.1462, 0.010},
     {8.2e-8, 0.040},
     {75e-12, 0.16},
     {70e-12, 0.20},
     {0.34, 0.15},
     {95e-6, 0.15},
     false},
    {"sim-strip-44",
     "Simulated narrow coil with bar magnets, 44 AWG",
     44,
     8.7002,
     0.028,
     {9600, 0.014},
     {0.1440, 0.010},
     {5.5e-8, 0.035},
     {95e-12, 0.15},
     {35e-12, 0.22},
     {0.17, 0.15},
     {60e-6, 0.12},
     true},
    {"sim-blade-38",
     "Simulated coil on a steel blade, 38 AWG",
     38,
     2.1266,
     0.018,
     {9200, 0.012},
     {0.1500, 0.010},
     {3.1e-8, 0.035},
     {140e-12, 0.15},
     {80e-12, 0.20},
     {0.26, 0.14},
     {80e-6, 0.12},
     false},
}};

double draw(const Spread& spread, Random& random) {
    return random.log_normal(spread.median, spread.log_deviation);
}

World draw_world(Random& random) {
    World world;
    if (random.chance(0.5)) {
        world.coupling = World::Coupling::constant;
        world.coupling_coefficient = random.uniform(0.90, 0.99);
    } else {
        world.coupling = World::Coupling::decaying;
        world.coupling_coefficient = random.uniform(0.75, 0.97);
    }
    if (random.chance(0.5)) world.outer_length_excess = random.uniform(0.05, 0.15);
    switch (random.below(4)) {
    case 0:
        world.self_capacitance = World::SelfCapacitance::leads;
        break;
    case 1:
        world.self_capacitance = World::SelfCapacitance::winding_ends;
        break;
    case 2:
        world.self_capacitance = World::SelfCapacitance::neighbours;
        world.neighbour_share = 1.0;
        break;
    default:
        world.self_capacitance = World::SelfCapacitance::mixture;
        world.neighbour_share = random.uniform(0.1, 0.8);
    }
    if (random.chance(0.5)) world.inner_frame_excess = random.uniform(0.2, 0.7);
    world.eddy_loops = random.chance(0.5) ? 1 : 2;
    return world;
}

/// One loop, or a quick one (poles) and a slow one (cover or base plate) with the same product of share and
/// time, which is what low frequencies see.
std::vector<EddyLoop> draw_eddy(const Construction& construction, int loops, Random& random) {
    const double share = draw(construction.eddy_share, random);
    const double time_s = draw(construction.eddy_time_s, random);
    if (loops == 1) return {{share, time_s}};
    const double slow = random.uniform(0.2, 0.5);
    const double ratio = random.uniform(2.0, 4.0);
    const double quick_time_s = time_s / (1.0 - slow + slow * ratio);
    return {{share * (1.0 - slow), quick_time_s}, {share * slow, quick_time_s * ratio}};
}

} // namespace

std::span<const Construction> constructions() {
    return all_constructions;
}

double nominal_resistance_ohm(const Construction& construction) {
    return construction.turns.median * construction.mean_turn_length_m.median * construction.ohm_per_metre;
}

HealthyCoil draw_healthy(const Construction& construction, Random& random) {
    HealthyCoil healthy;
    Coil& coil = healthy.coil;
    healthy.mean_turn_length_m = draw(construction.mean_turn_length_m, random);
    coil.turns = draw(construction.turns, random);
    coil.ohm_per_turn_20 = healthy.mean_turn_length_m *
                           random.log_normal(construction.ohm_per_metre, construction.wire_log_deviation);
    coil.henry_per_turn2 = draw(construction.henry_per_turn2, random);
    coil.self_capacitance_f = draw(construction.self_capacitance_f, random);
    coil.frame_capacitance_f = draw(construction.frame_capacitance_f, random);
    coil.insulation_ohm = random.log_uniform(1e9, 1e11);
    coil.world = draw_world(random);
    coil.eddy = draw_eddy(construction, coil.world.eddy_loops, random);
    return healthy;
}

Coil draw_alike(const Coil& other, MadeAlike how, Random& random) {
    // How far each of them lies from what they share, as log deviations; so their differences are √2 times
    // that. Common practice, no published source: a counter is good to some tens of turns, one spool to a per
    // cent; a set is wound from several spools, and its coils differ a little in size. (The resistances of
    // published sets scatter by 3.8 % within a set: tests/diagnosis/coils_alike_test.cpp.)
    struct Scatter {
        double turns;
        double ohm_per_turn;
        double henry_per_turn2;
        double self_capacitance;
        double frame_capacitance;
        double eddy_share;
        double eddy_time;
    };

    const Scatter of = how == MadeAlike::twin ? Scatter{0.004, 0.010, 0.012, 0.06, 0.08, 0.06, 0.05}
                                              : Scatter{0.010, 0.030, 0.020, 0.08, 0.12, 0.10, 0.08};
    const auto beside = [&](double value, double scatter) {
        return random.log_normal(value, std::numbers::sqrt2 * scatter);
    };
    Coil coil = other;
    coil.turns = beside(coil.turns, of.turns);
    coil.ohm_per_turn_20 = beside(coil.ohm_per_turn_20, of.ohm_per_turn);
    coil.henry_per_turn2 = beside(coil.henry_per_turn2, of.henry_per_turn2);
    coil.self_capacitance_f = beside(coil.self_capacitance_f, of.self_capacitance);
    coil.frame_capacitance_f = beside(coil.frame_capacitance_f, of.frame_capacitance);
    const double share = beside(1.0, of.eddy_share);
    const double time = beside(1.0, of.eddy_time);
    for (EddyLoop& loop : coil.eddy) {
        loop.share *= share;
        loop.time_s *= time;
    }
    return coil;
}

} // namespace population
