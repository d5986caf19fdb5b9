#include "ngspice.h"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <sstream>
#include <stdexcept>

#include <fmt/format.h>
#include <unistd.h>

namespace coilward::test {
namespace {

// Nodes: s start lead, f finish lead, g frame, m inside the winding, n beyond a break.
struct Run {
    std::string from;
    std::string to;
    double share = 1.0;
};

std::vector<Run> runs_of(const NoFault&) {
    return {{"s", "f", 1.0}};
}

std::vector<Run> runs_of(const Load&) {
    return {{"s", "f", 1.0}};
}

std::vector<Run> runs_of(const Bridge& b) {
    return {{"s", "m", 1.0 - b.share}, {"m", "f", b.share}};
}

std::vector<Run> runs_of(const SeriesElement& x) {
    return {{"s", "m", x.position}, {"n", "f", 1.0 - x.position}};
}

std::vector<Run> runs_of(const Leak& l) {
    return {{"s", "m", l.position}, {"m", "f", 1.0 - l.position}};
}

double leakage_of(const FaultElement& fault) {
    const Bridge* bridge = std::get_if<Bridge>(&fault);
    return bridge ? bridge->leakage : 0.0;
}

std::string fault_cards(const NoFault&) {
    return "";
}

std::string fault_cards(const Bridge& b) {
    return fmt::format("Rbridge m f {:.15g}\n", b.resistance_ohm);
}

std::string fault_cards(const SeriesElement& x) {
    return fmt::format("Rbreak m n {:.15g}\nCbreak m n {:.15g}\n", x.resistance_ohm, x.capacitance_f);
}

std::string fault_cards(const Leak& l) {
    return fmt::format("Rleak m g {:.15g}\n", l.resistance_ohm);
}

std::string fault_cards(const Load& l) {
    return fmt::format("Rvolume s f {:.15g}\nCcable s f {:.15g}\nRtone s t {:.15g}\nCtone t f {:.15g}\n",
                       l.resistance_ohm, l.capacitance_f, l.tone_resistance_ohm, l.tone_capacitance_f);
}

std::string winding_cards(const Coil& coil, const std::vector<Run>& runs, double leakage) {
    const double inductance = coil.turns * coil.turns * coil.henry_per_turn2;
    const double resistance =
        coil.turns * coil.ohm_per_turn_20 * (1.0 + 0.00393 * (coil.temperature_c - 20.0));
    const double common = runs.size() == 2 ? leakage * runs[0].share * runs[1].share : 0.0;
    std::string cards;
    std::vector<double> self;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const double share = runs[i].share;
        self.push_back(inductance * (share * share + common));
        cards += fmt::format("R{0} {1} w{0} {2:.15g}\nL{0} w{0} {3} {4:.15g}\n", i, runs[i].from,
                             share * resistance, runs[i].to, self[i]);
        cards += fmt::format("Ca{0} {1} g {3:.15g}\nCb{0} {2} g {3:.15g}\n", i, runs[i].from, runs[i].to,
                             0.5 * share * coil.frame_capacitance_f);
        cards += fmt::format("Ra{0} {1} g {3:.15g}\nRb{0} {2} g {3:.15g}\n", i, runs[i].from, runs[i].to,
                             2.0 * coil.frame_insulation_ohm / share);
    }
    if (runs.size() == 2) {
        const double mutual = inductance * (1.0 - leakage) * runs[0].share * runs[1].share;
        cards += fmt::format("K01 L0 L1 {:.15g}\n", mutual / std::sqrt(self[0] * self[1]));
    }
    cards += fmt::format("Leddy e 0 1\nReddy e 0 {:.15g}\n", 1.0 / coil.eddy_time_s);
    for (std::size_t i = 0; i < runs.size(); ++i)
        cards += fmt::format("K{0}e L{0} Leddy {1:.15g}\n", i,
                             runs[i].share * std::sqrt(coil.eddy_share * inductance / self[i]));
    return cards;
}

std::string port_in(CoilPort port) {
    return port == CoilPort::finish_frame ? "f" : "s";
}

std::string port_out(CoilPort port) {
    return port == CoilPort::leads ? "f" : "g";
}

} // namespace

std::string circuit_cards(const Coil& coil, const FaultElement& fault, CoilPort port) {
    const auto runs = std::visit([](const auto& element) { return runs_of(element); }, fault);
    std::string cards = "pickup coil\n";
    cards += winding_cards(coil, runs, leakage_of(fault));
    cards += fmt::format("Cself s f {:.15g}\n", coil.self_capacitance_f);
    cards += std::visit([](const auto& element) { return fault_cards(element); }, fault);
    // The port's return is tied to ground: a wire without current, since nothing else touches ground but the
    // eddy loop, which stands alone.
    if (port == CoilPort::leads_frame) cards += "Vjoined s f 0\n";
    return cards + fmt::format("Vground {} 0 0\nIport 0 {} dc 1 ac 1\n", port_out(port), port_in(port));
}

std::string netlist(const Coil& coil, const FaultElement& fault, CoilPort port,
                    const std::vector<double>& frequencies_hz) {
    return circuit_cards(coil, fault, port) + sweep_cards(port_in(port), frequencies_hz);
}

std::string sweep_cards(const std::string& node, const std::vector<double>& frequencies_hz) {
    std::string cards = ".options rshunt=1e18 gmin=1e-20\n.control\nset numdgt=14\n";
    for (double frequency : frequencies_hz) {
        if (frequency > 0.0)
            cards +=
                fmt::format("ac lin 1 {0:.15g} {0:.15g}\nprint real(v({1})) imag(v({1}))\n", frequency, node);
        else
            cards += fmt::format("op\nprint v({0})\nprint v({0})-v({0})\n", node);
    }
    return cards + "quit\n.endc\n.end\n";
}

std::vector<std::complex<double>> run_ngspice(const std::string& text, std::size_t count) {
    const auto file = std::filesystem::temp_directory_path() / fmt::format("coilward-{}.cir", ::getpid());
    std::ofstream(file) << text;
    const std::string command = fmt::format("ngspice -b '{}' 2>&1", file.string());
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(::popen(command.c_str(), "r"), &::pclose);
    if (!pipe) throw std::runtime_error("cannot start ngspice: install the package ngspice");
    std::string said;
    char buffer[4096];
    while (const std::size_t got = std::fread(buffer, 1, sizeof buffer, pipe.get()))
        said.append(buffer, got);
    std::filesystem::remove(file);

    std::vector<double> numbers;
    std::istringstream lines(said);
    for (std::string line; std::getline(lines, line);)
        if (const auto equals = line.find(" = "); equals != std::string::npos && line.find('v') < equals)
            numbers.push_back(std::strtod(line.c_str() + equals + 3, nullptr));
    if (numbers.size() != 2 * count)
        throw std::runtime_error(fmt::format("ngspice gave {} numbers for {} frequencies:\n{}\n{}",
                                             numbers.size(), count, said, text));
    std::vector<std::complex<double>> voltages;
    for (std::size_t i = 0; i < count; ++i)
        voltages.emplace_back(numbers[2 * i], numbers[2 * i + 1]);
    return voltages;
}

} // namespace coilward::test
