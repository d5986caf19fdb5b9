#include "network.h"

#include <numbers>

namespace population {
namespace {

using Complex = std::complex<double>;

/// Voltage across each section per ampere in each section. A closed loop answers the voltage jωM i that a
/// section induces in it with a current −jωM i / (R + jωL), which adds ω²M Mᵀ / (R + jωL) to the sections.
Eigen::MatrixXcd section_impedance(const Network& network, double omega) {
    const Complex j(0.0, 1.0);
    Eigen::MatrixXcd impedance = j * omega * network.section_henry.cast<Complex>();
    impedance.diagonal() += network.section_ohm.cast<Complex>();
    for (const ClosedLoop& loop : network.loops) {
        const Complex own = loop.ohm + j * omega * loop.henry;
        const Eigen::VectorXcd mutual = loop.mutual_henry.cast<Complex>();
        impedance += (omega * omega / own) * mutual * mutual.transpose();
    }
    return impedance;
}

Eigen::MatrixXcd section_admittance(const Network& network, double omega) {
    if (omega == 0.0) return network.section_ohm.cwiseInverse().cast<Complex>().asDiagonal();
    return section_impedance(network, omega).partialPivLu().inverse();
}

void add_sections(const Network& network, double omega, Eigen::MatrixXcd& nodal) {
    const Eigen::MatrixXcd admittance = section_admittance(network, omega);
    const auto count = static_cast<Eigen::Index>(network.section_from.size());
    for (Eigen::Index a = 0; a < count; ++a) {
        const int from_a = network.section_from[static_cast<std::size_t>(a)];
        const int to_a = network.section_to[static_cast<std::size_t>(a)];
        for (Eigen::Index b = 0; b < count; ++b) {
            const int from_b = network.section_from[static_cast<std::size_t>(b)];
            const int to_b = network.section_to[static_cast<std::size_t>(b)];
            nodal(from_a, from_b) += admittance(a, b);
            nodal(to_a, to_b) += admittance(a, b);
            nodal(from_a, to_b) -= admittance(a, b);
            nodal(to_a, from_b) -= admittance(a, b);
        }
    }
}

void add_elements(const Network& network, double omega, Eigen::MatrixXcd& nodal) {
    for (const ParallelRC& element : network.elements) {
        const Complex admittance(element.siemens, omega * element.farad);
        nodal(element.from, element.from) += admittance;
        nodal(element.to, element.to) += admittance;
        nodal(element.from, element.to) -= admittance;
        nodal(element.to, element.from) -= admittance;
    }
}

} // namespace

std::complex<double> impedance_between(const Network& network, int node, int reference, double frequency_hz) {
    const double omega = 2.0 * std::numbers::pi * frequency_hz;
    Eigen::MatrixXcd nodal = Eigen::MatrixXcd::Zero(network.nodes, network.nodes);
    add_sections(network, omega, nodal);
    add_elements(network, omega, nodal);
    nodal.row(reference).setZero();
    nodal(reference, reference) = 1.0; // the reference node stays at 0 V
    Eigen::VectorXcd current = Eigen::VectorXcd::Zero(network.nodes);
    current(node) = 1.0;
    return nodal.partialPivLu().solve(current)(node);
}

} // namespace population
