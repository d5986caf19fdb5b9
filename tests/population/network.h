#pragma once

#include <complex>
#include <vector>

#include <Eigen/Dense>

namespace population {

/// A resistance and a capacitance side by side between two nodes.
struct ParallelRC {
    int from = 0;
    int to = 0;
    double siemens = 0.0;
    double farad = 0.0;
};

/// A shorted loop of metal that shares flux with the sections.
struct ClosedLoop {
    double ohm = 0.0;
    double henry = 0.0;
    Eigen::VectorXd mutual_henry; ///< to each section
};

/// Coupled sections of wire, closed loops, and resistances and capacitances between nodes 0 … nodes − 1.
struct Network {
    int nodes = 0;
    std::vector<int> section_from;
    std::vector<int> section_to;
    Eigen::VectorXd section_ohm;
    Eigen::MatrixXd section_henry;
    std::vector<ClosedLoop> loops;
    std::vector<ParallelRC> elements;

    int new_node() { return nodes++; }
};

/// Driving-point impedance in ohm by dense nodal analysis; all other nodes float. 0 Hz is direct current.
std::complex<double> impedance_between(const Network&, int node, int reference, double frequency_hz);

} // namespace population
