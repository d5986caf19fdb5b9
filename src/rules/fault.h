#pragma once

#include "reading/reading.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// The change in the circuit by which a fault acts. Each has its parameters (see `Severity::name`), solved
/// exactly by src/coil.
enum class Primitive {
    none,            ///< a healthy coil
    bridge,          ///< bridge_resistance ohm across shorted_fraction of the turns
    series_element,  ///< series_resistance ∥ series_capacitance in the wire at break_position
    leak,            ///< leak_resistance ohm from leak_position to the frame
    scale_turns,     ///< turns × turns_factor
    scale_conductor, ///< ohm per turn × resistance_factor
    flip,            ///< leads exchanged, or the magnet: only the polarity shows it
    load, ///< load_resistance ∥ load_capacitance ∥ (tone_resistance + tone_capacitance) across the leads
    unlisted, ///< none of the above: any reading is about as likely as any other
};

/// How probable each value of a severity is, before any reading.
struct Distribution {
    /// Which of the members below count.
    enum class Kind {
        fixed,       ///< `value`
        uniform,     ///< over `bands`, plus a point mass of weight `at_ends` at each end of the whole
        log_uniform, ///< over `bands`
        log_normal,  ///< median `median`, standard deviation of the logarithm `log_deviation`
    };

    /// One of several stretches, from low to high, that do not touch.
    struct Band {
        double low = 0.0; ///< in the severity's unit
        double high = 0.0;
        double weight = 0.0; ///< share of the distribution; those of all bands sum to 1
    };

    Kind kind = Kind::fixed;
    double value = 0.0; ///< in the severity's unit, as bands and median
    std::vector<Band> bands;
    double at_ends = 0.0;       ///< weight of each end point, 0 to 0.5; uniform only
    double median = 0.0;        ///< above 0
    double log_deviation = 0.0; ///< natural logarithm
    int points = 0; ///< into how many pieces diagnosis divides a uniform or log_uniform distribution
};

/// One parameter of the primitive, by its name: shorted_fraction, bridge_resistance, bridge_leakage;
/// series_resistance, series_capacitance, break_position, self_capacitance_factor; leak_resistance,
/// leak_position; turns_factor; resistance_factor; load_resistance, load_capacitance, tone_resistance,
/// tone_capacitance. Resistances in ohm, capacitances in farad, all else a pure number: fractions and
/// positions from 0 to 1 (a position from the start lead).
struct Severity {
    std::string name; ///< one of the above
    Distribution distribution;
    bool estimated = false; ///< reported among the fault's estimates
};

/// One reading by which the fault shows itself, in words.
struct Sign {
    std::string reading; ///< which
    std::string shows;   ///< and what it then is
};

/// Chances of each answer of the kick test, or of a compass, under this fault; they sum to 1.
struct PolarityChances {
    double as_expected = 1.0;
    double reversed = 0.0;
    double none = 0.0; ///< no kick; a compass that does not care
};

/// What a compass shows where a fault's file does not say: a magnet is seldom turned or dead. Estimate.
inline constexpr PolarityChances usual_magnet_pole{.as_expected = 0.97, .reversed = 0.02, .none = 0.01};

/// Chances that the DC resistance moves otherwise than sound copper's when the coil is handled.
struct ResponseChances {
    double warmed = 0.0;  ///< falls, jumps or wanders in place of rising as copper does
    double pressed = 0.0; ///< moves at all
};

/// A worked example: with these readings the fault must lead (fires) or must not (a near miss).
struct FaultCase {
    std::string name;       ///< no other case of the fault has it
    bool fires = true;      ///< false: a near miss
    std::string coil_model; ///< the id of the one that is used
    std::vector<Reading> readings;
};

/// What a fault's file rests on (docs/formats-rules.md): nothing yet, its cases as the tests find them, or
/// coils that were opened to find the fault.
enum class FaultStatus { draft, checked, proven };

/// A fault as rules/faults/ID.toml describes it.
struct Fault {
    std::string id;     ///< the name of its file
    std::string title;  ///< for people
    std::string source; ///< where its numbers come from
    std::string file;   ///< as complaints name it
    FaultStatus status = FaultStatus::draft;
    double prior = 0.0; ///< how often it comes to the bench, relative to the others
    Primitive primitive = Primitive::none;
    std::vector<Severity> severities; ///< those of its primitive
    std::vector<Sign> signs;          ///< at least one
    PolarityChances polarity;         ///< of the kick
    /// Input resistance of the voltmeter that reads the kick; where given, `polarity` holds without series
    /// resistance, and a series resistance leaves less of the kick to see.
    std::optional<double> kick_read_across_ohm;
    PolarityChances magnet_pole = usual_magnet_pole; ///< of a compass
    ResponseChances response;
    double unstable_chance = 0.0;      ///< that a reading through the coil wanders
    double decide_at = 0.95;           ///< probability from which the verdict counts as decided
    std::vector<std::string> advice;   ///< in the order of doing
    std::vector<std::string> cautions; ///< what can hurt while doing it; may be empty
    std::vector<FaultCase> cases;      ///< of both kinds
};

} // namespace coilward
