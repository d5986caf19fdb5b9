/// The same networks in a general circuit simulator (ngspice).

#include "circuit.h"

#include <cmath>
#include <cstdio>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

namespace population {
namespace {

std::string node_name(int node, int reference) {
    if (node == reference) return "0";
    std::string name = "n";
    name += std::to_string(node);
    return name;
}

void write_sections(const Network& network, int reference, std::ostream& out) {
    const auto count = static_cast<Eigen::Index>(network.section_from.size());
    for (Eigen::Index a = 0; a < count; ++a) {
        const auto i = static_cast<std::size_t>(a);
        out << "R" << a << " " << node_name(network.section_from[i], reference) << " m" << a << " "
            << network.section_ohm(a) << "\nL" << a << " m" << a << " "
            << node_name(network.section_to[i], reference) << " " << network.section_henry(a, a) << "\n";
        for (Eigen::Index b = 0; b < a; ++b)
            out << "K" << a << "_" << b << " L" << a << " L" << b << " "
                << network.section_henry(a, b) /
                       std::sqrt(network.section_henry(a, a) * network.section_henry(b, b))
                << "\n";
    }
    for (std::size_t loop = 0; loop < network.loops.size(); ++loop) {
        const ClosedLoop& closed = network.loops[loop];
        out << "Lloop" << loop << " p" << loop << " 0 " << closed.henry << "\nRloop" << loop << " p" << loop
            << " 0 " << closed.ohm << "\n";
        for (Eigen::Index a = 0; a < count; ++a)
            out << "Kloop" << loop << "_" << a << " Lloop" << loop << " L" << a << " "
                << closed.mutual_henry(a) / std::sqrt(closed.henry * network.section_henry(a, a)) << "\n";
    }
}

std::string netlist(const Network& network, int node, int reference, double frequency_hz) {
    std::ostringstream out;
    out.precision(15);
    out << "impedance of a winding\n";
    write_sections(network, reference, out);
    for (std::size_t i = 0; i < network.elements.size(); ++i) {
        const ParallelRC& element = network.elements[i];
        const std::string ends =
            node_name(element.from, reference) + " " + node_name(element.to, reference) + " ";
        if (element.siemens > 0.0) out << "Re" << i << " " << ends << 1.0 / element.siemens << "\n";
        if (element.farad > 0.0) out << "Ce" << i << " " << ends << element.farad << "\n";
    }
    out << "I1 0 " << node_name(node, reference) << " DC 0 AC 1\n.options gmin=1e-18\n.control\n"
        << "ac lin 1 " << frequency_hz << " " << frequency_hz << "\nset numdgt=12\nprint real(v("
        << node_name(node, reference) << ")) imag(v(" << node_name(node, reference) << "))\n.endc\n.end\n";
    return out.str();
}

/// Nothing where ngspice is not installed.
std::optional<std::complex<double>> by_ngspice(const std::string& circuit) {
    const std::string path = testing::TempDir() + "population_spice_test.cir";
    std::ofstream(path) << circuit;
    FILE* pipe = popen(("ngspice -b " + path + " 2>&1").c_str(), "r");
    if (pipe == nullptr) return std::nullopt;
    double real = NAN;
    double imaginary = NAN;
    char line[1000];
    while (std::fgets(line, sizeof line, pipe) != nullptr) {
        const std::string text = line;
        const std::size_t equals = text.find('=');
        if (equals == std::string::npos) continue;
        if (text.starts_with("real(")) real = std::stod(text.substr(equals + 1));
        if (text.starts_with("imag(")) imaginary = std::stod(text.substr(equals + 1));
    }
    pclose(pipe);
    if (std::isnan(real) || std::isnan(imaginary)) return std::nullopt;
    return std::complex<double>(real, imaginary);
}

Coil lossy_coil() {
    Coil coil;
    coil.turns = 8000;
    coil.ohm_per_turn_20 = 0.75;
    coil.henry_per_turn2 = 3.75e-8;
    coil.self_capacitance_f = 110e-12;
    coil.frame_capacitance_f = 45e-12;
    coil.eddy = {{0.15, 40e-6}, {0.08, 120e-6}};
    coil.world.coupling = World::Coupling::decaying;
    coil.world.coupling_coefficient = 0.85;
    coil.world.outer_length_excess = 0.1;
    coil.world.self_capacitance = World::SelfCapacitance::mixture;
    coil.world.neighbour_share = 0.4;
    coil.world.inner_frame_excess = 0.5;
    return coil;
}

std::vector<Damage> every_damage() {
    std::vector<Damage> damages(6);
    damages[1].shorted = Short{0.31, 0.37, 12.0};
    damages[2].broken = Break{0.42, 1e12, 9e-12};
    damages[3].broken = Break{0.0, 40e3, 20e-12};
    damages[4].leak = FrameLeak{0.7, 5e4};
    damages[5].controls = Controls{250e3, 400e-12, 500e3, 22e-9};
    return damages;
}

TEST(AgainstNgspice, EveryDamageAtEveryPort) {
    if (std::system("ngspice --version >/dev/null 2>&1") != 0) GTEST_SKIP() << "ngspice is not installed";
    for (const Damage& damage : every_damage()) {
        const Circuit circuit = circuit_of(lossy_coil(), damage, 25.0, 8);
        for (const auto& [node, reference] : {std::pair{circuit.start, circuit.finish},
                                              {circuit.start, circuit.frame},
                                              {circuit.finish, circuit.frame}})
            for (const double frequency_hz : {120.0, 1000.0, 10000.0}) {
                const auto ours = impedance_between(circuit.network, node, reference, frequency_hz);
                const auto theirs = by_ngspice(netlist(circuit.network, node, reference, frequency_hz));
                ASSERT_TRUE(theirs.has_value());
                EXPECT_LT(std::abs(ours - *theirs), 1e-6 * std::abs(ours)) << ours << *theirs;
            }
    }
}

} // namespace
} // namespace population
