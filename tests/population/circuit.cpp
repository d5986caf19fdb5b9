#include "circuit.h"

#include <algorithm>
#include <cmath>

namespace population {
namespace {

/// Places along the wire where something is attached. Where the wire is broken, the piece before the cut ends
/// at another node than that at which the next begins.
struct Wire {
    std::vector<double> cuts;
    std::vector<int> arrive;
    std::vector<int> leave;

    std::size_t cut_at(double place) const {
        const auto nearest = std::min_element(cuts.begin(), cuts.end(), [&](double a, double b) {
            return std::abs(a - place) < std::abs(b - place);
        });
        return static_cast<std::size_t>(nearest - cuts.begin());
    }
};

/// Pieces shorter than a thousandth of a turn of a usual coil are not worth a section.
constexpr double smallest_piece = 1e-7;

std::vector<double> cuts_for(const Damage& damage, int grid) {
    std::vector<double> cuts;
    for (int i = 0; i <= grid; ++i)
        cuts.push_back(static_cast<double>(i) / grid);
    if (damage.shorted) cuts.insert(cuts.end(), {damage.shorted->from, damage.shorted->to});
    if (damage.broken) cuts.push_back(damage.broken->place);
    if (damage.leak) cuts.push_back(damage.leak->place);
    std::sort(cuts.begin(), cuts.end());
    const auto same = [](double a, double b) { return b - a < smallest_piece; };
    cuts.erase(std::unique(cuts.begin(), cuts.end(), same), cuts.end());
    return cuts;
}

Wire lay_wire(const Damage& damage, int grid, Network& network) {
    Wire wire{cuts_for(damage, grid), {}, {}};
    for (std::size_t i = 0; i < wire.cuts.size(); ++i)
        wire.arrive.push_back(network.new_node());
    wire.leave = wire.arrive;
    if (damage.broken) wire.leave[wire.cut_at(damage.broken->place)] = network.new_node();
    for (std::size_t i = 0; i + 1 < wire.cuts.size(); ++i) {
        network.section_from.push_back(wire.leave[i]);
        network.section_to.push_back(wire.arrive[i + 1]);
    }
    return wire;
}

/// Each loop has 1 H; its resistance follows from the time constant, its coupling from the share.
void add_eddy_loops(const Coil& coil, const Sections& sections, Network& network) {
    const double total_henry = sections.henry.sum();
    for (const EddyLoop& loop : coil.eddy) {
        const double mutual = std::sqrt(loop.share * total_henry);
        network.loops.push_back({1.0 / loop.time_s, 1.0, mutual * sections.turns_share});
    }
}

void add_self_capacitance(const Coil& coil, const Wire& wire, int grid, Network& network) {
    const bool outside = coil.world.self_capacitance == World::SelfCapacitance::leads;
    const double lumped = coil.self_capacitance_f * (1.0 - coil.world.neighbour_share);
    if (outside)
        network.elements.push_back({wire.arrive.front(), wire.leave.back(), 0.0, lumped});
    else
        network.elements.push_back({wire.leave.front(), wire.arrive.back(), 0.0, lumped});
    // Equal capacitances in a row: each must be `grid` times the whole.
    const double each = coil.self_capacitance_f * coil.world.neighbour_share * grid;
    for (int i = 0; i < grid; ++i) {
        const std::size_t from = wire.cut_at(static_cast<double>(i) / grid);
        const std::size_t to = wire.cut_at(static_cast<double>(i + 1) / grid);
        network.elements.push_back({wire.leave[from], wire.arrive[to], 0.0, each});
    }
}

void add_frame(const Coil& coil, const Sections& sections, int frame, Network& network) {
    for (std::size_t i = 0; i < network.section_from.size(); ++i) {
        const double half = 0.5 * sections.frame_share(static_cast<Eigen::Index>(i));
        const double siemens = half / coil.insulation_ohm;
        const double farad = half * coil.frame_capacitance_f;
        network.elements.push_back({network.section_from[i], frame, siemens, farad});
        network.elements.push_back({network.section_to[i], frame, siemens, farad});
    }
}

void add_controls(const Controls& controls, Circuit& circuit) {
    Network& network = circuit.network;
    network.elements.push_back(
        {circuit.start, circuit.finish, 1.0 / controls.volume_ohm, controls.cable_farad});
    if (controls.tone_farad > 0.0) {
        const int middle = network.new_node();
        network.elements.push_back({circuit.start, middle, 1.0 / controls.tone_ohm, 0.0});
        network.elements.push_back({middle, circuit.finish, 0.0, controls.tone_farad});
    }
}

void add_damage(const Damage& damage, const Wire& wire, Circuit& circuit) {
    std::vector<ParallelRC>& elements = circuit.network.elements;
    if (damage.shorted) {
        const int from = wire.leave[wire.cut_at(damage.shorted->from)];
        const int to = wire.arrive[wire.cut_at(damage.shorted->to)];
        elements.push_back({from, to, 1.0 / damage.shorted->ohm, 0.0});
    }
    if (damage.broken) {
        const std::size_t cut = wire.cut_at(damage.broken->place);
        elements.push_back(
            {wire.arrive[cut], wire.leave[cut], 1.0 / damage.broken->ohm, damage.broken->gap_farad});
    }
    if (damage.leak) {
        const int place = wire.leave[wire.cut_at(damage.leak->place)];
        elements.push_back({place, circuit.frame, 1.0 / damage.leak->ohm, 0.0});
    }
    if (damage.controls) add_controls(*damage.controls, circuit);
}

} // namespace

Circuit circuit_of(const Coil& healthy, const Damage& damage, double temperature_c, int grid) {
    Coil coil = healthy;
    coil.turns *= damage.turns_factor;
    coil.ohm_per_turn_20 *= damage.resistance_factor;
    Circuit circuit;
    Network& network = circuit.network;
    const Wire wire = lay_wire(damage, grid, network);
    circuit.start = wire.arrive.front();
    circuit.finish = wire.leave.back();
    circuit.frame = network.new_node();
    const Sections sections = divide(coil, wire.cuts, temperature_c);
    network.section_ohm = sections.ohm;
    network.section_henry = sections.henry;
    add_eddy_loops(coil, sections, network);
    add_self_capacitance(coil, wire, grid, network);
    add_frame(coil, sections, circuit.frame, network);
    add_damage(damage, wire, circuit);
    return circuit;
}

} // namespace population
