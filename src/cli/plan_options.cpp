#include "cli/plan_options.h"

#include <CLI/CLI.hpp>

namespace coilward {

void add_bobbin_options(CLI::App& command, BobbinWords& words) {
    command.add_option(
        "--core", words.core,
        "What the wire lies on, with its tape: LENGTH,WIDTH of a racetrack, or a diameter; else the "
        "coil model's bobbin");
    command.add_option("--flange", words.flange, "LENGTH,WIDTH of the flanges, or their diameter; likewise");
    command.add_option("--height", words.height, "Between the flanges; likewise");
    command.add_option(
        "--corner", words.corner,
        "Radius of the corners, where the core is a block such as a bar magnet wound in place");
    command.add_option("--tape", words.tape, "Depth to keep free for the tape around the winding");
    command
        .add_option("--bobbin-uncertainty", words.uncertainty,
                    "Standard uncertainty of each of these lengths")
        ->capture_default_str();
}

void add_wire_options(CLI::App& command, WireWords& words) {
    auto* size = command.add_option_group("wire size", "One of; else the coil model's gauge");
    size->add_option("--awg", words.awg, "Gauge, 36 to 46");
    size->add_option("--metric", words.metric,
                     "Nominal diameter of a size of IEC 60317-0-1, such as 0.063mm");
    size->require_option(0, 1);
    command.add_flag("--exact", words.exact, "The exact diameter of ASTM B258 in place of the nominal one");
    command.add_flag("--heavy", words.heavy, "Heavy build (grade 2) in place of single (grade 1)");
    command.add_option("--ohm-per-metre", words.ohm_per_metre,
                       "Measured of this spool at 20 °C, such as 5.41±0.02");
    command.add_option("--overall-diameter", words.overall_diameter,
                       "Measured of this spool over the enamel, such as 71u±0.5u");
}

} // namespace coilward
