#include "diagnosis/diagnosis.h"
#include "reading/examination_json.h"

#include <algorithm>

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// The readings of a sound coil of six-rod-42 (a worked example of rules/faults), under another name.
Diagnosis sound_coil_named(const std::string& coil_model) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    return diagnose(rules, examination_from_json(R"({"coil_model": ")" + coil_model + R"(", "readings": [
  {"quantity": "temperature", "value": 21.5, "unit": "degC", "standard_uncertainty": 0.5},
  {"quantity": "dc_resistance", "value": 6208.0, "unit": "ohm", "standard_uncertainty": 9.3},
  {"quantity": "inductance", "circuit": "series", "frequency": 1000, "value": 2.434, "unit": "H", "standard_uncertainty": 0.0098},
  {"quantity": "quality_factor", "frequency": 1000, "value": 2.27, "unit": "1", "standard_uncertainty": 0.023},
  {"quantity": "ac_resistance", "circuit": "series", "frequency": 1000, "value": 6662.0, "unit": "ohm", "standard_uncertainty": 40.0},
  {"quantity": "polarity", "value": "as_expected"}]})"));
}

bool notes_name(const Diagnosis& diagnosis, const std::string& model) {
    return std::ranges::any_of(diagnosis.notes, [&](const std::string& note) {
        return note.ends_with("(" + model + "): check which coil this is");
    });
}

TEST(AnotherModel, IsNamedWhereItsHealthyCoilsReadSo) {
    const Diagnosis mistaken = sound_coil_named("low-form-44");
    EXPECT_EQ(mistaken.verdict.fault, "unexplained");
    EXPECT_TRUE(notes_name(mistaken, "six-rod-42"));
}

TEST(AnotherModel, IsNotAskedOfACoilThatReadsAsNamed) {
    const Diagnosis right = sound_coil_named("six-rod-42");
    EXPECT_EQ(right.verdict.fault, "healthy");
    for (const std::string& note : right.notes)
        EXPECT_EQ(note.find("check which coil"), std::string::npos) << note;
}

} // namespace
} // namespace coilward
