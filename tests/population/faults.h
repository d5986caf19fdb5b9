#pragma once

#include "circuit.h"
#include "random.h"

#include <map>
#include <span>
#include <string>
#include <string_view>

namespace population {

/// Ids of the faults that are drawn, `healthy` first.
std::span<const std::string_view> fault_ids();

/// How often each fault comes to the bench.
enum class Mix {
    even,  ///< all as often
    bench, ///< four in ten healthy, the others as often as each other
};

/// Chance of a fault under a mix; 0 for an id that is not drawn.
double chance_of(std::string_view fault, Mix);

std::string_view draw_fault(Mix, Random&);

/// Answers of the kick test, by chance; what is left is `as_expected`.
struct KickChances {
    double reversed = 0.012;
    double none = 0.005;
};

/// What is wrong with one coil and how badly.
struct Ailment {
    Damage damage;
    KickChances kick;
    double flutter = 0.0; ///< half-width, relative, of the wander of the break's resistance
    std::map<std::string, double> severities; ///< by the names of the documents, e.g. shorted_fraction
};

/// That share of the turns bridged, somewhere in the winding, by a contact of 0.1 to 300 ohm.
Ailment shorted_turns(double fraction, Random&);

Ailment draw_ailment(std::string_view fault, Random&);

} // namespace population
