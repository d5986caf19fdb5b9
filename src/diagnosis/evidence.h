#pragma once

#include "coil/impedance.h"
#include "reading/examination.h"
#include "rules/rules.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// One answer that follows from the impedance at a port: a number, or a state in its place.
struct Answer {
    std::size_t reading = 0; ///< index of the (first) reading that it came from
    Quantity quantity{};
    /// How the number is split; the usual one where the reading does not say.
    Circuit circuit = Circuit::series;
    State state = State::ok;      ///< ok, over range or under range; of a number always ok
    double value = 0.0;           ///< SI unit of the quantity
    double deviation = 0.0;       ///< the meter's standard uncertainty of the number
    bool is_signed = false;       ///< Q or D: `value` has the sign of the reactance
    bool repeats_earlier = false; ///< an earlier examination of this coil gave this answer too
    double limit_ohm = 0.0;       ///< over or under range: where the meter's range ends, as an impedance or a
                                  ///< resistance
    double limit_log_deviation = 0.0; ///< how well that limit is known
};

/// All answers that one solution of the network serves.
struct Probe {
    CoilPort port = CoilPort::leads;
    double frequency_hz = 0.0;   ///< 0 is direct current
    std::vector<Answer> answers; ///< one or more
};

/// A number that follows from no impedance: a temperature, or a resonance frequency.
struct PlainAnswer {
    std::size_t reading = 0; ///< index of the (first) reading that it came from
    double value = 0.0;      ///< degC or hertz
    double deviation = 0.0;  ///< the meter's and the model's together
};

/// An examination's readings, sorted by what predicts them. Repeats of one question are one answer: their
/// mean weighted by uncertainty, which is the wider the more they disagree (the Birge ratio).
struct Evidence {
    std::vector<Probe> probes;             ///< those of one frequency stand together
    std::vector<PlainAnswer> temperatures; ///< of the coil, degC
    std::vector<PlainAnswer> resonances;   ///< hertz
    std::vector<Polarity> polarities;      ///< kicks
    bool any_unstable = false;             ///< at least one reading through the coil wandered
    bool any_steady = false;               ///< at least one did not
    std::vector<std::string> notes;        ///< what was assumed, or left out, and why
};

/// Whether a thermometer can show it, degC.
bool can_be_temperature(double degrees_c);

/// Whether a meter can show its numbers; one that none can show is not judged.
bool is_measurable(const Reading&);

/// Standard uncertainty, in the quantity's SI unit, of a reading that has a value (it must): its own, with
/// the spread of one that wandered; where it has none, an ordinary bench meter's.
double uncertainty_of(const Reading&, const Rules&);

/// Sorts the readings of one coil. A reading without an uncertainty takes that of an ordinary bench meter
/// from the rules, and one that diagnosis cannot use is left out; both are said in the notes. Where a reading
/// out of range does not say where the range ends, an ordinary meter's end is taken, as a wide guess (common
/// practice, no published source).
Evidence gather(const std::vector<Reading>&, const Rules&);

} // namespace coilward
