#pragma once

#include "rewind/computed_model.h"
#include "rewind/plan_words.h"

#include <string>

namespace coilward {

/// What is known of a coil that no model fits, as a person types it; what is empty is not known.
struct ModelWords {
    std::string type; ///< construction: a pickup type's id
    /// "7500..8100"; of one coil that is taken for sound "6.1k" at "21" (degC), and "2.4" (henry, series at 1
    /// kHz).
    std::string turns, resistance, temperature, inductance;
    BobbinWords bobbin;
    WireWords wire;
};

/// What the words say. Throws BadWords, also where an answer is half given: a bobbin counts with its three
/// lengths, a resistance with its temperature.
KnownOfCoil known_in_words(const ModelWords&, const Rules&);

/// The coil model of these answers. Throws BadWords and NoCoilModel.
CoilModel computed_model(const ModelWords&, const Rules&, const std::string& id, const std::string& title);

} // namespace coilward
