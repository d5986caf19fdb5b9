#pragma once

#include "diagnosis/posterior.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// A reading of a coil that was handled meanwhile, beside the same one of the coil at rest.
struct Response {
    Reading handled; ///< warmed, pressed or lifted
    Reading at_rest;
    /// Both in one unit, the meter's error counted in each; the lesser is then too wide, since most of the
    /// error is common to both. 0 where one of them has no number.
    double handled_deviation = 0.0;
    double at_rest_deviation = 0.0;
};

/// What an examination of one coil holds, by how it is weighed.
struct ReadingsByUse {
    std::vector<Reading> at_rest; ///< what a circuit predicts, and the kick
    std::vector<Response> responses;
    std::vector<Polarity> magnet_poles; ///< by compass
    std::vector<std::string> notes;     ///< what was left out, and why
};

/// Sorts them. A handled reading needs one of the coil at rest to be held against.
ReadingsByUse by_use(const std::vector<Reading>&, const Rules&);

/// Whether a warmed or pressed coil's resistance moved otherwise than sound copper's: it wanders, or came or
/// went out of range; pressed, it moved by more than both readings' uncertainties and a kelvin; warmed, it
/// did not rise by what copper does between some and some fifty kelvin.
bool moved_oddly(const Response&);

/// ln of the chance of a response, or its density in the reading's unit, if the explanation holds; nullptr
/// for a fault that has none.
double log_likelihood(const Response&, const Fault&, const Explanation*);

/// ln of the chance that a compass shows this, at least ln 1e-6.
double log_chance_of_pole(Polarity, const Fault&);

/// Brings the probabilities up to date with the responses and the compass (Bayes' theorem), and the order
/// with them.
void weigh(Posterior&, const ReadingsByUse&);

/// What a warmed or pressed coil is expected to tell about which fault it is, bits (mutual information),
/// given its reading at rest and that reading's standard uncertainty in its own unit. Warmed or pressed only;
/// a reading at rest without a number must be out of range.
double response_gain_bits(const Posterior&, Handling, const Reading& at_rest, double deviation);

/// How far the explanation moves a lifted reading, in its unit: what its load did to it; 0 without a load.
double step_when_lifted(const Response&, const Fault&, const Explanation&);

/// Copper's rise of resistance in kelvin, at 0.393 % a kelvin: how much warmer the coil is than it was at
/// rest. Both readings need a number.
double kelvin_of_copper(const Response&);

} // namespace coilward
