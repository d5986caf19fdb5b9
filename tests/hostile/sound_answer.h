#pragma once

#include "reading/examination.h"
#include "rules/rules.h"

#include <string>

#include <nlohmann/json.hpp>

namespace coilward::testing {

/// Expects probabilities that sum to 1, estimates in order, and no number that is none. A diagnosis document,
/// or a part of one.
void expect_sound(const nlohmann::json& diagnosis);

/// Judges it, and expects a sound document or one useful line.
void expect_an_answer(const Rules&, const Examination&);

} // namespace coilward::testing
