#pragma once

#include <string>
#include <vector>

#include <Eigen/Dense>

namespace population {

/// How the parts of a winding differ from a single lumped coil. Each is a matter on which real coils differ
/// and which no reading tells.
struct World {
    enum class Coupling { constant, decaying };
    enum class SelfCapacitance { leads, winding_ends, neighbours, mixture };

    Coupling coupling = Coupling::constant;
    double coupling_coefficient =
        0.97; ///< constant: between any two sections; decaying: of the two end sections
    double outer_length_excess =
        0.0; ///< outermost turns longer by this share than the mean, innermost shorter
    SelfCapacitance self_capacitance = SelfCapacitance::leads;
    double neighbour_share = 0.0;    ///< of the self-capacitance: between the ends of each section
    double inner_frame_excess = 0.0; ///< capacitance to the frame: innermost turns have more by this share
    int eddy_loops = 1;
};

/// The world in words, parted by '/'.
std::string describe(const World&);

/// A closed loop of metal near the coil, as seen from the whole coil.
struct EddyLoop {
    double share = 0.0;  ///< of the coil's flux that it takes: M² / (L_loop · L_coil)
    double time_s = 0.0; ///< L_loop / R_loop
};

struct Coil {
    double turns = 0.0;
    double ohm_per_turn_20 = 0.0;
    double henry_per_turn2 = 0.0;
    double self_capacitance_f = 0.0;
    double frame_capacitance_f = 0.0;
    double insulation_ohm = 1e10; ///< whole winding to frame
    std::vector<EddyLoop> eddy;
    World world;
};

/// The winding cut in pieces. Places are shares of the turns from the start lead.
struct Sections {
    Eigen::VectorXd turns_share; ///< sums to 1
    Eigen::VectorXd ohm;
    Eigen::MatrixXd henry;
    Eigen::VectorXd frame_share; ///< of the capacitance and of the insulation to the frame; sums to 1
};

/// Copper, per kelvin at 20 °C (100 % IACS).
inline constexpr double copper_coefficient = 0.00393;

/// Pieces between each cut and the next; cuts rise from 0 to 1. Resistance sums to the coil's at
/// `temperature_c`, the inductance matrix to its turns² · henry_per_turn2.
Sections divide(const Coil&, const std::vector<double>& cuts, double temperature_c);

} // namespace population
