#include "demonstration/scenario.h"

namespace coilward {
namespace {

// The coils lie inside the ranges of the model that their pickup names, and none in the middle of them.

constexpr double bench_temperature_c = 22.4;

Coil coil_of(double turns, double resistance_20_ohm, double inductance_h) {
    return {.turns = turns,
            .ohm_per_turn_20 = resistance_20_ohm / turns,
            .henry_per_turn2 = inductance_h / (turns * turns),
            .self_capacitance_f = 120e-12,
            .frame_capacitance_f = 45e-12,
            .eddy_share = 0.05,
            .eddy_time_s = 3e-5,
            .frame_insulation_ohm = 3e10,
            .temperature_c = bench_temperature_c};
}

InventedPickup broken_at_the_finish() {
    InventedPickup pickup{.name = "Lighthouse, neck",
                          .instrument = "Lighthouse, a guitar that does not exist",
                          .coil_model = "six-rod-42",
                          .complaint = "nothing but a whisper of treble since the cover came off",
                          .stage = "as received",
                          .coil = coil_of(8100, 6380, 2.58),
                          .polarity = Polarity::none};
    // The two parts of a broken winding no longer share one voltage: less is left of the self-capacitance.
    pickup.coil.self_capacitance_f = 55e-12;
    pickup.fault = SeriesElement{.position = 1.0, .resistance_ohm = 1e12, .capacitance_f = 12e-12};
    return pickup;
}

InventedPickup with_shorted_turns() {
    return {.name = "Lighthouse, bridge",
            .instrument = "Lighthouse, a guitar that does not exist",
            .coil_model = "six-rod-42",
            .complaint = "thinner and quieter than its twin",
            .stage = "as received",
            .coil = coil_of(7850, 6050, 2.41),
            .fault = Bridge{.share = 0.03, .resistance_ohm = 2.0, .leakage = 0.03}};
}

InventedPickup rewound() {
    return {.name = "Harbour, lead",
            .instrument = "Harbour, a lap guitar that does not exist",
            .coil_model = "hot-coil-44",
            .complaint = "none: rewound here, is it right?",
            .stage = "after rewinding",
            .rewound = true,
            .coil = coil_of(7850, 8450, 3.9)};
}

} // namespace

std::vector<InventedPickup> invented_pickups() {
    return {broken_at_the_finish(), with_shorted_turns(), rewound()};
}

} // namespace coilward
