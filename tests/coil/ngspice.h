#pragma once

#include "coil/impedance.h"

#include <complex>
#include <string>
#include <vector>

namespace coilward::test {

/// A netlist of the coil and its fault, written element by element for a general circuit simulator, with a
/// source of one ampere at the port. Independent of src/coil: windings are coupled inductors, the eddy loop
/// is a third one.
std::string netlist(const Coil&, const FaultElement&, CoilPort, const std::vector<double>& frequencies_hz);

/// Its circuit alone, without what is to be computed and without an end. The port's node is "s", or "f" for
/// CoilPort::finish_frame.
std::string circuit_cards(const Coil&, const FaultElement&, CoilPort);

/// The end of a netlist: prints the voltage of a node at each frequency, as run_ngspice() reads it.
std::string sweep_cards(const std::string& node, const std::vector<double>& frequencies_hz);

/// Runs ngspice in batch mode on a netlist and returns the port voltage at each frequency, in the order
/// asked. Throws std::runtime_error with the program's own words where it fails.
std::vector<std::complex<double>> run_ngspice(const std::string& netlist, std::size_t count);

} // namespace coilward::test
