#include "winding.h"

#include <cmath>

namespace population {
namespace {

/// `excess` more than the mean at one end, as much less at the other, straight in between.
double slope(double excess, double place) {
    return 1.0 + excess * (2.0 * place - 1.0);
}

double coupling(const World& world, double distance) {
    if (world.coupling == World::Coupling::constant) return world.coupling_coefficient;
    return std::pow(world.coupling_coefficient, distance);
}

Eigen::MatrixXd relative_inductance(const World& world, const Eigen::VectorXd& share,
                                    const Eigen::VectorXd& place) {
    const Eigen::Index count = share.size();
    Eigen::VectorXd root(count);
    for (Eigen::Index a = 0; a < count; ++a)
        root(a) = share(a) * std::sqrt(slope(world.outer_length_excess, place(a)));
    Eigen::MatrixXd matrix(count, count);
    for (Eigen::Index a = 0; a < count; ++a)
        for (Eigen::Index b = 0; b < count; ++b)
            matrix(a, b) =
                root(a) * root(b) * (a == b ? 1.0 : coupling(world, std::abs(place(a) - place(b))));
    return matrix / matrix.sum();
}

const char* word(World::SelfCapacitance where) {
    switch (where) {
    case World::SelfCapacitance::leads:
        return "C across leads";
    case World::SelfCapacitance::winding_ends:
        return "C across winding ends";
    case World::SelfCapacitance::neighbours:
        return "C between neighbours";
    case World::SelfCapacitance::mixture:
        return "C mixed";
    }
    return "";
}

} // namespace

std::string describe(const World& world) {
    std::string text =
        world.coupling == World::Coupling::constant ? "constant coupling" : "decaying coupling";
    text += world.outer_length_excess > 0.0 ? "/outer turns longer" : "/turns alike";
    text += std::string("/") + word(world.self_capacitance);
    text += world.eddy_loops == 1 ? "/one eddy loop" : "/two eddy loops";
    text += world.inner_frame_excess > 0.0 ? "/inner turns nearer frame" : "/frame evenly near";
    return text;
}

Sections divide(const Coil& coil, const std::vector<double>& cuts, double temperature_c) {
    const auto count = static_cast<Eigen::Index>(cuts.size()) - 1;
    Sections sections;
    sections.turns_share.resize(count);
    sections.ohm.resize(count);
    sections.frame_share.resize(count);
    Eigen::VectorXd place(count);
    for (Eigen::Index a = 0; a < count; ++a) {
        const double begin = cuts[static_cast<std::size_t>(a)];
        const double end = cuts[static_cast<std::size_t>(a) + 1];
        const double share = end - begin;
        place(a) = 0.5 * (begin + end);
        sections.turns_share(a) = share;
        sections.ohm(a) = share * slope(coil.world.outer_length_excess, place(a));
        sections.frame_share(a) = share * slope(-coil.world.inner_frame_excess, place(a));
    }
    const double warm = 1.0 + copper_coefficient * (temperature_c - 20.0);
    sections.ohm *= coil.turns * coil.ohm_per_turn_20 * warm / sections.ohm.sum();
    sections.frame_share /= sections.frame_share.sum();
    sections.henry = coil.turns * coil.turns * coil.henry_per_turn2 *
                     relative_inductance(coil.world, sections.turns_share, place);
    return sections;
}

} // namespace population
