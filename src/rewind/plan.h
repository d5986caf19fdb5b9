#pragma once

#include "coil/coil.h"
#include "coil/fault_element.h"
#include "coil/winding.h"
#include "rewind/spool.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// What is known of the coil beyond its wire: from a coil model, a sister coil, or its geometry alone.
struct CoilKnowledge {
    Uncertain henry_per_turn2;
    Uncertain self_capacitance_f;
    double eddy_share = 0.0;   ///< κ, 0 to 1 (coil/coil.h)
    double eddy_time_s = 1e-4; ///< τ
    std::string from;          ///< "the coil model six-rod-42"
};

/// What the winding must reach.
enum class TargetKind { turns, dc_resistance, inductance };

/// What the winding is to have. A resistance is that at 20 °C.
struct Target {
    TargetKind kind = TargetKind::turns;
    Uncertain wanted; ///< turns, ohm or henry
    std::string from; ///< "order", "as it was on 2026-03-02"
};

/// Where an input comes from: "said", "the coil model six-rod-42", "assumed: 21 ± 2 °C, an ordinary bench".
struct InputSource {
    std::string input;
    std::string from;
};

/// Everything that a plan follows from.
struct Job {
    Bobbin bobbin;
    double length_uncertainty_m = 0.0; ///< standard, of each measured length of the bobbin
    double tape_m = 0.0;               ///< depth kept free for the tape around the winding
    Spool spool;
    Uncertain packing;                 ///< WirePacking::packing
    Uncertain temperature_c;           ///< of the bench, for the resistance that it will read
    std::optional<CoilKnowledge> coil; ///< without it no inductance and no resonance
    std::optional<Load> load;          ///< cable and controls
    Target target;
    std::vector<InputSource> sources; ///< of every input that the figures follow from
};

/// One figure of a plan.
struct Figure {
    std::string name; ///< "turns", "wire_length", "dc_resistance_20", …
    std::string unit; ///< as in documents
    double value = 0.0;
    double standard_uncertainty = 0.0;
    std::string main_cause;   ///< the input that gives most of the variance; empty where the figure is exact
    double cause_share = 0.0; ///< of the variance, 0 to 1
};

/// Does the winding fit between core and edge, with its tape?
struct Fit {
    double depth_left_m = 0.0; ///< below 0: too little
    double standard_uncertainty_m = 0.0;
    double probability = 0.0; ///< that it fits, 0 to 1
    bool may_decide = true;   ///< false where the wire's diameter rests on no published source
};

/// The answer to a job.
struct Plan {
    double turns = 0.0;          ///< a whole number: what to set on the counter
    std::vector<Figure> figures; ///< turns first
    Fit fit;
    std::vector<std::string> notes; ///< what the figures leave out, or rest on
};

/// The same turns, wound with another wire.
struct OtherWire {
    std::string title;       ///< the spool's
    Plan plan;               ///< of the same number of turns
    double turns_for_target; ///< turns that reach the target with it, a fraction too
};

/// Turns from the target, everything else from the turns; first-order propagation of the uncertainties of all
/// inputs (JCGM 100:2008, 5.1.2), each taken as independent. Throws std::invalid_argument where the target
/// cannot be reached (an inductance without knowledge of the coil, or what is not above 0), and for a packing
/// that is not above 0 or denser than round wire lies.
Plan plan_of(const Job&);

/// The plan with each of the other spools, in their order. Throws as turns_for_target() does.
std::vector<OtherWire> with_other_wires(const Job&, double turns, const std::vector<Spool>&);

} // namespace coilward
