#include "diagnosis/unknown.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace coilward {
namespace {

struct Facts {
    std::string_view name;
    Parameter parameter;
    bool linear;
};

// In the order of the enumeration.
constexpr std::array<Facts, unknown_count> facts{{
    {"turns", Parameter::turns, false},
    {"ohm_per_turn", Parameter::ohm_per_turn, false},
    {"henry_per_turn2", Parameter::henry_per_turn2, false},
    {"self_capacitance", Parameter::self_capacitance, false},
    {"frame_capacitance", Parameter::frame_capacitance, false},
    {"eddy_share", Parameter::eddy_share, false},
    {"eddy_time", Parameter::eddy_time, false},
    {"frame_insulation", Parameter::frame_insulation, false},
    {"temperature", Parameter::temperature, true},
    {"shorted_fraction", Parameter::bridge_share, false},
    {"bridge_resistance", Parameter::bridge_resistance, false},
    {"bridge_leakage", Parameter::bridge_leakage, false},
    {"series_resistance", Parameter::series_resistance, false},
    {"series_capacitance", Parameter::series_capacitance, false},
    {"break_position", Parameter::position, true},
    {"self_capacitance_factor", Parameter::self_capacitance, false},
    {"leak_resistance", Parameter::leak_resistance, false},
    {"leak_position", Parameter::position, true},
    {"turns_factor", Parameter::turns, false},
    {"resistance_factor", Parameter::ohm_per_turn, false},
    {"load_resistance", Parameter::load_resistance, false},
    {"load_capacitance", Parameter::load_capacitance, false},
    {"tone_resistance", Parameter::tone_resistance, false},
    {"tone_capacitance", Parameter::tone_capacitance, false},
}};

const Facts& facts_of(Unknown unknown) {
    return facts[static_cast<std::size_t>(unknown)];
}

FaultElement fault_element_of(Primitive primitive, const Values& values) {
    const auto number = [&](Unknown unknown) { return to_number(unknown, at(values, unknown)); };
    switch (primitive) {
    case Primitive::bridge:
        return Bridge{.share = number(Unknown::shorted_fraction),
                      .resistance_ohm = number(Unknown::bridge_resistance),
                      .leakage = number(Unknown::bridge_leakage)};
    case Primitive::series_element:
        return SeriesElement{.position = number(Unknown::break_position),
                             .resistance_ohm = number(Unknown::series_resistance),
                             .capacitance_f = number(Unknown::series_capacitance)};
    case Primitive::leak:
        return Leak{.position = number(Unknown::leak_position),
                    .resistance_ohm = number(Unknown::leak_resistance)};
    case Primitive::load:
        return Load{.resistance_ohm = number(Unknown::load_resistance),
                    .capacitance_f = number(Unknown::load_capacitance),
                    .tone_resistance_ohm = number(Unknown::tone_resistance),
                    .tone_capacitance_f = number(Unknown::tone_capacitance)};
    case Primitive::none:
    case Primitive::scale_turns:
    case Primitive::scale_conductor:
    case Primitive::flip:
    case Primitive::unlisted:
        break;
    }
    return NoFault{};
}

} // namespace

std::optional<Unknown> unknown_named(std::string_view name) {
    const auto found = std::ranges::find(facts, name, &Facts::name);
    if (found == facts.end()) return std::nullopt;
    return static_cast<Unknown>(found - facts.begin());
}

bool is_linear(Unknown unknown) {
    return facts_of(unknown).linear;
}

double to_measure(Unknown unknown, double number) {
    return is_linear(unknown) ? number : std::log(number);
}

double to_number(Unknown unknown, double measure) {
    return is_linear(unknown) ? measure : std::exp(measure);
}

Bounds bounds_of(Unknown unknown) {
    constexpr double endless = std::numeric_limits<double>::infinity();
    switch (unknown) {
    case Unknown::break_position:
    case Unknown::leak_position:
        return {0.0, 1.0};
    case Unknown::shorted_fraction:
        return {-endless, std::log(0.99)};
    case Unknown::bridge_leakage:
        return {-endless, std::log(0.9)};
    case Unknown::eddy_share:
        return {-endless, std::log(0.95)};
    case Unknown::temperature:
        return {-40.0, 150.0};
    default:
        return {-endless, endless};
    }
}

Parameter parameter_of(Unknown unknown) {
    return facts_of(unknown).parameter;
}

CircuitUnderTest circuit_of(Primitive primitive, const Values& values) {
    const auto scaled = [&](Unknown unknown, Unknown factor) {
        return std::exp(at(values, unknown) + at(values, factor));
    };
    return {
        .coil = {.turns = scaled(Unknown::turns, Unknown::turns_factor),
                 .ohm_per_turn_20 = scaled(Unknown::ohm_per_turn, Unknown::resistance_factor),
                 .henry_per_turn2 = std::exp(at(values, Unknown::henry_per_turn2)),
                 .self_capacitance_f = scaled(Unknown::self_capacitance, Unknown::self_capacitance_factor),
                 .frame_capacitance_f = std::exp(at(values, Unknown::frame_capacitance)),
                 .eddy_share = std::exp(at(values, Unknown::eddy_share)),
                 .eddy_time_s = std::exp(at(values, Unknown::eddy_time)),
                 .frame_insulation_ohm = std::exp(at(values, Unknown::frame_insulation)),
                 .temperature_c = at(values, Unknown::temperature)},
        .fault = fault_element_of(primitive, values)};
}

} // namespace coilward
