#include "coil/impedances.h"

#include <array>
#include <cmath>
#include <functional>
#include <string>

#include <gtest/gtest.h>

// The derivatives by Tellegen's theorem against central differences of the impedance itself.

namespace coilward {
namespace {

const Coil coil{.turns = 5000,
                .ohm_per_turn_20 = 0.8,
                .henry_per_turn2 = 9e-8,
                .self_capacitance_f = 90e-12,
                .frame_capacitance_f = 50e-12,
                .eddy_share = 0.3,
                .eddy_time_s = 5e-5,
                .frame_insulation_ohm = 1e10,
                .temperature_c = 22.0};

struct Move {
    Parameter parameter;
    std::function<void(Coil&, FaultElement&, double)> by; // by this much in the parameter's own measure
};

template <typename Element>
std::function<void(Coil&, FaultElement&, double)> scale(double Element::*member) {
    return [member](Coil&, FaultElement& fault, double step) {
        std::get<Element>(fault).*member *= std::exp(step);
    };
}

template <typename Element>
std::function<void(Coil&, FaultElement&, double)> shift(double Element::*member) {
    return [member](Coil&, FaultElement& fault, double step) { std::get<Element>(fault).*member += step; };
}

std::function<void(Coil&, FaultElement&, double)> scale_coil(double Coil::*member) {
    return [member](Coil& moved, FaultElement&, double step) { moved.*member *= std::exp(step); };
}

std::vector<Move> moves_of_every_coil() {
    return {{Parameter::turns, scale_coil(&Coil::turns)},
            {Parameter::ohm_per_turn, scale_coil(&Coil::ohm_per_turn_20)},
            {Parameter::henry_per_turn2, scale_coil(&Coil::henry_per_turn2)},
            {Parameter::self_capacitance, scale_coil(&Coil::self_capacitance_f)},
            {Parameter::frame_capacitance, scale_coil(&Coil::frame_capacitance_f)},
            {Parameter::eddy_share, scale_coil(&Coil::eddy_share)},
            {Parameter::eddy_time, scale_coil(&Coil::eddy_time_s)},
            {Parameter::frame_insulation, scale_coil(&Coil::frame_insulation_ohm)},
            {Parameter::temperature,
             [](Coil& moved, FaultElement&, double step) { moved.temperature_c += step; }}};
}

struct Case {
    FaultElement fault;
    std::vector<Move> moves;
};

const std::vector<Case> cases{
    {NoFault{}, {}},
    {Bridge{0.06, 12.0, 0.05},
     {{Parameter::bridge_share, scale(&Bridge::share)},
      {Parameter::bridge_resistance, scale(&Bridge::resistance_ohm)},
      {Parameter::bridge_leakage, scale(&Bridge::leakage)}}},
    {SeriesElement{0.3, 4e5, 20e-12},
     {{Parameter::position, shift(&SeriesElement::position)},
      {Parameter::series_resistance, scale(&SeriesElement::resistance_ohm)},
      {Parameter::series_capacitance, scale(&SeriesElement::capacitance_f)}}},
    {Leak{0.7, 2e4},
     {{Parameter::position, shift(&Leak::position)},
      {Parameter::leak_resistance, scale(&Leak::resistance_ohm)}}},
    {Load{2.5e5, 300e-12, 2e5, 22e-9},
     {{Parameter::load_resistance, scale(&Load::resistance_ohm)},
      {Parameter::load_capacitance, scale(&Load::capacitance_f)},
      {Parameter::tone_resistance, scale(&Load::tone_resistance_ohm)},
      {Parameter::tone_capacitance, scale(&Load::tone_capacitance_f)}}},
};

void expect_agreement(const Case& tested, const Move& move, CoilPort port, double frequency_hz) {
    constexpr double step = 1e-5;
    const auto at = [&](double by) {
        Coil moved = coil;
        FaultElement fault = tested.fault;
        move.by(moved, fault, by);
        return impedance(moved, fault, port, frequency_hz);
    };
    const auto difference = (at(step) - at(-step)) / (2.0 * step);
    const auto result = impedance_with_gradient(coil, tested.fault, port, frequency_hz);
    const auto derivative = result.derivative[static_cast<std::size_t>(move.parameter)];
    const double scale = std::abs(result.impedance_ohm) * 1e-5 + std::abs(difference) * 1e-5;
    EXPECT_NEAR(std::abs(derivative - difference), 0.0, scale)
        << "parameter " << static_cast<int>(move.parameter) << ", port " << static_cast<int>(port) << ", "
        << frequency_hz << " Hz: " << derivative << " against " << difference;
}

TEST(ImpedanceGradient, AgreesWithCentralDifferences) {
    for (const Case& tested : cases) {
        auto moves = moves_of_every_coil();
        moves.insert(moves.end(), tested.moves.begin(), tested.moves.end());
        for (const Move& move : moves)
            for (const CoilPort port :
                 {CoilPort::leads, CoilPort::start_frame, CoilPort::finish_frame, CoilPort::leads_frame})
                for (const double frequency_hz : {0.0, 120.0, 1000.0, 10000.0})
                    expect_agreement(tested, move, port, frequency_hz);
    }
}

TEST(ImpedanceGradient, IsTheSameForAllPortsAtOnce) {
    constexpr std::array ports{CoilPort::finish_frame, CoilPort::leads, CoilPort::leads_frame,
                               CoilPort::start_frame};
    for (const Case& tested : cases)
        for (const double frequency_hz : {0.0, 1000.0}) {
            std::array<ImpedanceWithGradient, port_count> seen;
            impedances_with_gradient(coil, tested.fault, frequency_hz, ports, seen);
            for (std::size_t i = 0; i < ports.size(); ++i) {
                const auto alone = impedance_with_gradient(coil, tested.fault, ports[i], frequency_hz);
                EXPECT_EQ(seen[i].impedance_ohm, alone.impedance_ohm);
                EXPECT_EQ(seen[i].derivative, alone.derivative);
            }
        }
}

} // namespace
} // namespace coilward
