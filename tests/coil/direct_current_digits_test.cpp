#include "coil/impedance.h"

#include <gtest/gtest.h>

// At direct current a bridged coil is two resistors, one of them with the bridge in parallel (Ohm's law),
// however good the insulation to the frame is: no digits may be lost between micro-ohms and teraohms.

namespace coilward {
namespace {

TEST(DirectCurrent, BridgeKeepsItsDigitsBesideAnyInsulation) {
    const double share = 0.3;
    for (const double insulation_ohm : {1e6, 1e10, 1e14})
        for (const double bridge_ohm : {1e-6, 1e-2, 1e3, 1e9}) {
            const Coil coil{.turns = 5000,
                            .ohm_per_turn_20 = 0.8,
                            .henry_per_turn2 = 9e-8,
                            .frame_insulation_ohm = insulation_ohm};
            const double bridged_ohm = share * 4000.0;
            const double expected =
                (1.0 - share) * 4000.0 + bridged_ohm * bridge_ohm / (bridged_ohm + bridge_ohm);
            const auto z = impedance(coil, Bridge{share, bridge_ohm}, CoilPort::leads, 0.0);
            // The insulation lies across the coil: about a quarter of its conductance.
            EXPECT_NEAR(z.real() / expected, 1.0, 1e-12 + 0.5 * expected / insulation_ohm)
                << bridge_ohm << " ohm, insulation " << insulation_ohm << " ohm";
            EXPECT_EQ(z.imag(), 0.0);
        }
}

} // namespace
} // namespace coilward
