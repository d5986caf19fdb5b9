#pragma once

#include "rewind/computed_model.h"
#include "rewind/plan_words.h"

#include <string>

namespace coilward {

/// What is known of a coil that no model fits, as a person types it; what is empty is not known.
struct ModelWords {
    std::string type; ///< construction: a pickup type's id
    std::string turns, resistance, temperature, inductance;
    BobbinWords bobbin;
    WireWords wire;
};

/// Throws BadWords, also where an answer is half given: a bobbin counts with its three lengths, a resistance
/// with its temperature.
KnownOfCoil known_in_words(const ModelWords&, const Rules&);

/// The coil model of these answers. Throws BadWords and NoCoilModel.
CoilModel computed_model(const ModelWords&, const Rules&, const std::string& id, const std::string& title);

} // namespace coilward
