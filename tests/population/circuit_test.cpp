#include "circuit.h"

#include <numbers>

#include <gtest/gtest.h>

namespace population {
namespace {

constexpr double omega_1k = 2.0 * std::numbers::pi * 1000.0;

/// 8,000 turns, 6 kohm, 2.4 H, perfectly coupled, without capacitance or eddy currents.
Coil ideal_coil() {
    Coil coil;
    coil.turns = 8000;
    coil.ohm_per_turn_20 = 0.75;
    coil.henry_per_turn2 = 2.4 / (8000.0 * 8000.0);
    coil.insulation_ohm = 1e15;
    coil.world.coupling_coefficient = 1.0 - 1e-9;
    return coil;
}

std::complex<double> leads(const Circuit& circuit, double frequency_hz) {
    return impedance_between(circuit.network, circuit.start, circuit.finish, frequency_hz);
}

TEST(Circuit, IdealCoilIsResistanceAndInductance) {
    const auto impedance = leads(circuit_of(ideal_coil(), {}, 20.0), 1000.0);
    EXPECT_NEAR(impedance.real(), 6000.0, 0.01);
    EXPECT_NEAR(impedance.imag(), omega_1k * 2.4, 0.01);
}

TEST(Circuit, EveryWorldHasTheSameTotals) {
    for (const auto coupling : {World::Coupling::constant, World::Coupling::decaying})
        for (const double outer : {0.0, 0.15}) {
            Coil coil = ideal_coil();
            coil.world.coupling = coupling;
            coil.world.coupling_coefficient = 0.9;
            coil.world.outer_length_excess = outer;
            const auto impedance = leads(circuit_of(coil, {}, 20.0), 1000.0);
            EXPECT_NEAR(impedance.real(), 6000.0, 0.01);
            EXPECT_NEAR(impedance.imag(), omega_1k * 2.4, 0.01);
        }
}

/// Copper, 0.00393 per kelvin at 20 °C.
TEST(Circuit, WarmCoilHasMoreResistance) {
    EXPECT_NEAR(leads(circuit_of(ideal_coil(), {}, 30.0), 0.0).real(), 6000.0 * 1.0393, 0.01);
}

/// The same energy, so the same reading well below resonance, wherever the self-capacitance sits.
TEST(Circuit, SelfCapacitanceCountsTheSameWhereverItSits) {
    const std::complex<double> inductive(6000.0, omega_1k * 2.4);
    const std::complex<double> expected =
        1.0 / (1.0 / inductive + std::complex<double>(0.0, omega_1k * 100e-12));
    for (const double neighbours : {0.0, 0.5, 1.0}) {
        Coil coil = ideal_coil();
        coil.self_capacitance_f = 100e-12;
        coil.world.neighbour_share = neighbours;
        const auto impedance = leads(circuit_of(coil, {}, 20.0), 1000.0);
        EXPECT_NEAR(std::abs(impedance - expected) / std::abs(expected), 0.0, 1e-6);
    }
}

/// The coupled-secondary model for 8,000 turns, 6.0 kohm, 2.4 H and k = 1:
/// Z = R(1−x) + jωL(1−x)² + ω²M² / (Rx + jωLx²), M² = L²x²(1−x)².
TEST(Circuit, ShortedTurnsFollowTheCoupledSecondary) {
    for (const double x : {0.01, 0.05, 0.10, 0.30}) {
        const std::complex<double> first(6000.0 * (1 - x), omega_1k * 2.4 * (1 - x) * (1 - x));
        const std::complex<double> second(6000.0 * x, omega_1k * 2.4 * x * x);
        const double mutual = omega_1k * 2.4 * x * (1 - x);
        const auto expected = first + mutual * mutual / second;
        Damage damage;
        damage.shorted = Short{0.413, 0.413 + x, 1e-4};
        const auto impedance = leads(circuit_of(ideal_coil(), damage, 20.0), 1000.0);
        EXPECT_NEAR(std::abs(impedance - expected) / std::abs(expected), 0.0, 1e-5) << x;
    }
}

/// Loss that one per cent and ten per cent of shorted turns add at 1 kHz, k = 1: 371 and 2,890 ohm by the
/// published coupled-circuit formula, as rounded there.
TEST(Circuit, ShortedTurnsAddLoss) {
    for (const auto& [x, loss] : {std::pair{0.01, 371.0}, std::pair{0.10, 2890.0}}) {
        Damage damage;
        damage.shorted = Short{0.5, 0.5 + x, 1e-4};
        const Circuit circuit = circuit_of(ideal_coil(), damage, 20.0);
        EXPECT_NEAR(leads(circuit, 1000.0).real() - leads(circuit, 0.0).real(), loss, 0.005 * loss);
    }
}

TEST(Circuit, OpenCoilCarriesNoDirectCurrent) {
    for (const double place : {0.0, 0.37, 1.0}) {
        Damage damage;
        damage.broken = Break{place, 1e12, 5e-12};
        EXPECT_GT(leads(circuit_of(ideal_coil(), damage, 20.0), 0.0).real(), 1e11);
    }
}

/// Each lead of an open coil has the part of the capacitance to the frame that is on its side of the break.
TEST(Circuit, BreakPartsTheFrameCapacitance) {
    Coil coil = ideal_coil();
    coil.frame_capacitance_f = 40e-12;
    Damage damage;
    damage.broken = Break{0.3, 1e12, 1e-18};
    const Circuit circuit = circuit_of(coil, damage, 20.0);
    const auto farad = [&](int lead) {
        return (1.0 / impedance_between(circuit.network, lead, circuit.frame, 1000.0)).imag() / omega_1k;
    };
    EXPECT_NEAR(farad(circuit.start), 12e-12, 0.02e-12);
    EXPECT_NEAR(farad(circuit.finish), 28e-12, 0.05e-12);
}

TEST(Circuit, PartialBreakAddsItsResistance) {
    Damage damage;
    damage.broken = Break{0.6, 3000.0, 0.0};
    const auto impedance = leads(circuit_of(ideal_coil(), damage, 20.0), 1000.0);
    EXPECT_NEAR(impedance.real(), 9000.0, 0.01);
    EXPECT_NEAR(impedance.imag(), omega_1k * 2.4, 0.01);
}

/// Insulation from the start lead: the leak and the wire before it.
TEST(Circuit, LeakIsReachedThroughTheWire) {
    Damage damage;
    damage.leak = FrameLeak{0.25, 100.0};
    const Circuit circuit = circuit_of(ideal_coil(), damage, 20.0);
    EXPECT_NEAR(impedance_between(circuit.network, circuit.start, circuit.frame, 0.0).real(), 1600.0, 0.01);
    EXPECT_NEAR(impedance_between(circuit.network, circuit.finish, circuit.frame, 0.0).real(), 4600.0, 0.01);
}

TEST(Circuit, ControlsAreAcrossTheLeads) {
    Damage damage;
    damage.controls = Controls{250e3, 300e-12, 250e3, 22e-9};
    const Circuit circuit = circuit_of(ideal_coil(), damage, 20.0);
    EXPECT_NEAR(leads(circuit, 0.0).real(), 6000.0 * 250e3 / 256e3, 0.01);
    const std::complex<double> coil(6000.0, omega_1k * 2.4);
    const std::complex<double> tone(250e3, -1.0 / (omega_1k * 22e-9));
    const auto expected =
        1.0 / (1.0 / coil + 1.0 / 250e3 + std::complex<double>(0.0, omega_1k * 300e-12) + 1.0 / tone);
    EXPECT_NEAR(std::abs(leads(circuit, 1000.0) - expected) / std::abs(expected), 0.0, 1e-6);
}

} // namespace
} // namespace population
