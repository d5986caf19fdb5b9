#pragma once

#include "rewind/plan.h"
#include "rules/coil_model.h"

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace coilward {

/// What the words say of the bobbin.
struct BobbinWords {
    std::string core; ///< "LENGTH,WIDTH" or a diameter
    std::string flange;
    std::string height;
    std::string corner; ///< radius, of a block that is wound in place
    std::string tape;
    std::string uncertainty = "0.05mm";
};

/// What the words say of the wire.
struct WireWords {
    int awg = 0;
    std::string metric; ///< nominal diameter
    bool exact = false;
    bool heavy = false;
    std::string ohm_per_metre;
    std::string overall_diameter;
};

void add_bobbin_options(CLI::App&, BobbinWords&);
void add_wire_options(CLI::App&, WireWords&);

/// What the words leave open of bobbin and wire, from the coil model, and where each comes from. Throws
/// CLI::ValidationError where neither tells.
void complete(BobbinWords&, WireWords&, const CoilModel*, std::vector<InputSource>&);

/// A job on that bobbin, its other members still empty. Throws CLI::ValidationError.
Job job_on(const BobbinWords&);

/// Throws CLI::ValidationError.
Spool spool_in(const WireWords&);

/// The next thicker and thinner wire.
std::vector<Spool> neighbours_of(const WireWords&);

} // namespace coilward
