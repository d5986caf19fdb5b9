#include "rewind/figures.h"

#include "diagnosis/resonance.h"
#include "wire/copper.h"

#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

namespace coilward {
namespace {

WirePacking packing_of(const Job& job) {
    return {job.spool.overall_diameter_m.value, job.packing.value};
}

Coil coil_of(const Job& job, double turns, double resistance_20_ohm) {
    return {.turns = turns,
            .ohm_per_turn_20 = resistance_20_ohm / turns,
            .henry_per_turn2 = job.coil->henry_per_turn2.value,
            .self_capacitance_f = job.coil->self_capacitance_f.value,
            .eddy_share = job.coil->eddy_share,
            .eddy_time_s = job.coil->eddy_time_s,
            .temperature_c = job.temperature_c.value};
}

double resonance_hz(const Coil& coil, const FaultElement& load, double load_capacitance_f) {
    const double inductance = coil.turns * coil.turns * coil.henry_per_turn2;
    const double capacitance = coil.self_capacitance_f + load_capacitance_f;
    const double near = 1.0 / (2.0 * std::numbers::pi * std::sqrt(inductance * capacitance));
    const auto found = resonance_near({coil, load}, near);
    return found ? found->frequency_hz : std::numeric_limits<double>::quiet_NaN();
}

} // namespace

double turns_for_target(const Job& job) {
    const double wanted = job.target.wanted.value;
    switch (job.target.kind) {
    case TargetKind::turns:
        return wanted;
    case TargetKind::dc_resistance:
        return turns_of_length(job.bobbin.core, wanted / job.spool.ohm_per_metre_20.value,
                               job.bobbin.height_m, packing_of(job));
    case TargetKind::inductance:
        if (!job.coil)
            throw std::invalid_argument(
                "an inductance tells no turns without henry per turn²; name a coil model or "
                "a sister coil");
        return std::sqrt(wanted / job.coil->henry_per_turn2.value);
    }
    return wanted;
}

FigureValues figures_of(const Job& job, double turns) {
    FigureValues values;
    values.fill(std::numeric_limits<double>::quiet_NaN());
    const auto set = [&](FigureOf figure, double value) { values[static_cast<std::size_t>(figure)] = value; };
    const Bobbin& bobbin = job.bobbin;
    const double overall = job.spool.overall_diameter_m.value;
    const double depth = winding_depth_m(turns, bobbin.height_m, packing_of(job));
    const double length = wire_length_m(bobbin.core, turns, depth);
    const double resistance_20 = length * job.spool.ohm_per_metre_20.value;
    set(FigureOf::turns, turns_for_target(job));
    set(FigureOf::wire_length, length);
    set(FigureOf::wire_mass, length * gram_per_metre(job.spool.conductor_diameter_m, overall) / 1000.0);
    set(FigureOf::layers, layers_of(turns, bobbin.height_m, overall));
    set(FigureOf::depth, depth);
    set(FigureOf::depth_left, bobbin.depth_m - job.tape_m - depth);
    set(FigureOf::fill, (depth + job.tape_m) / bobbin.depth_m);
    set(FigureOf::resistance_20, resistance_20);
    set(FigureOf::resistance_now, resistance_at_ohm(resistance_20, job.temperature_c.value));
    if (job.coil) {
        const Coil coil = coil_of(job, turns, resistance_20);
        set(FigureOf::inductance, turns * turns * coil.henry_per_turn2);
        set(FigureOf::resonance_alone, resonance_hz(coil, NoFault{}, 0.0));
        if (job.load) set(FigureOf::resonance_loaded, resonance_hz(coil, *job.load, job.load->capacitance_f));
    }
    return values;
}

} // namespace coilward
