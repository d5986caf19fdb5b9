#pragma once

#include "rewind/plan.h"
#include "rules/rules.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// What the words say of the bobbin.
struct BobbinWords {
    std::string core;                   ///< "LENGTH,WIDTH" or a diameter
    std::string flange;                 ///< likewise
    std::string height;                 ///< between the flanges
    std::string corner;                 ///< radius, of a block that is wound in place
    std::string tape;                   ///< depth kept free for it
    std::string uncertainty = "0.05mm"; ///< standard, of each length
};

/// What the words say of the wire.
struct WireWords {
    int awg = 0;                  ///< 0: not said
    std::string metric;           ///< nominal diameter
    bool exact = false;           ///< the diameter by formula, not the nominal one
    bool heavy = false;           ///< heavy build, or grade 2
    std::string ohm_per_metre;    ///< as measured, at 20 °C, with its uncertainty
    std::string overall_diameter; ///< as measured, with its uncertainty
};

/// What a plan is asked for, as a person types it; what is empty is not said.
struct PlanWords {
    BobbinWords bobbin;
    WireWords wire;
    std::string turns, resistance, inductance; ///< the target: one of them, unless it comes from elsewhere
    /// Of a coil of the same construction, "8000±20" and "2.4"; the capacitance in farad, "110p".
    std::string sister_turns, sister_inductance, self_capacitance;
    /// Turns to a square of the wire, "0.75±0.08", and degC of the bench, "21.5±0.5".
    std::string packing, temperature;
    /// Controls in ohm, "250k", and cable in farad, "500p"; both or neither.
    std::string load_resistance, load_capacitance;
};

/// A plan with what it follows from, and what other wires would give.
struct WholePlan {
    Job job;
    Plan plan;
    std::vector<OtherWire> others;
};

/// What the words leave open of bobbin and wire, from the coil model, and where each comes from. Throws
/// BadWords where neither tells.
void complete(BobbinWords&, WireWords&, const CoilModel*, std::vector<InputSource>&);

/// A job on that bobbin, its other members still empty. Throws BadWords.
Job job_on(const BobbinWords&);

/// The wire that the words say. Throws BadWords.
Spool spool_in(const WireWords&);

/// The next thicker and thinner wire, as far as they are known. Throws BadWords.
std::vector<Spool> neighbours_of(const WireWords&);

/// The plan for what the words say, what the coil model adds (null: there is none), and what is assumed, each
/// with its source. `target` takes the place of that in the words. Throws BadWords, also where the target
/// cannot be reached.
WholePlan plan_in_words(PlanWords, const CoilModel*, const AllowedRanges&,
                        const std::optional<Target>& target);

} // namespace coilward
