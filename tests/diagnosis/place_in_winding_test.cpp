#include "diagnosis/diagnosis.h"
#include "reading/examination_json.h"

#include <numeric>

#include <gtest/gtest.h>

namespace coilward {
namespace {

Diagnosis diagnosis_of(const std::string& readings) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    return diagnose(rules,
                    examination_from_json(R"({"coil_model": "six-rod-42", "readings": [)" + readings + "]}"));
}

/// An open coil with these capacitances to the frame. The two parts of a broken winding share what a healthy
/// one has by their turns, so that each lead sees its own share (measurement of a cable's break by
/// capacitance, common practice).
Diagnosis open_coil(double from_start_pf, double from_finish_pf) {
    const auto capacitance = [](const char* between, double pf) {
        return std::string(R"({"quantity": "capacitance", "between": ")") + between +
               R"(", "frequency": 1000, "value": )" + std::to_string(pf) +
               R"(e-12, "unit": "F", "standard_uncertainty": 3e-13})";
    };
    return diagnosis_of(
        R"({"quantity": "dc_resistance", "state": "over_range", "limit": 2e7, "unit": "ohm"},)" +
        capacitance("start-frame", from_start_pf) + "," + capacitance("finish-frame", from_finish_pf));
}

double sum_of(const PlaceInWinding& place) {
    return std::accumulate(place.parts.begin(), place.parts.end(), place.at_start + place.at_finish);
}

double inner_half(const PlaceInWinding& place) {
    return std::accumulate(place.parts.begin(), place.parts.begin() + 10, place.at_start);
}

TEST(PlaceInWinding, IsNearTheLeadThatSeesLittleOfTheFrame) {
    const Diagnosis inside = open_coil(3.0, 38.0);
    const Diagnosis outside = open_coil(38.0, 3.0);
    ASSERT_TRUE(inside.place && outside.place);
    EXPECT_EQ(inside.verdict.fault, "open");
    EXPECT_NEAR(sum_of(*inside.place), 1.0, 1e-9);
    EXPECT_NEAR(sum_of(*outside.place), 1.0, 1e-9);
    EXPECT_GT(inner_half(*inside.place), 0.9);
    EXPECT_LT(inner_half(*outside.place), 0.1);
    EXPECT_LT(inside.place->mendable_outside, 0.05);
    EXPECT_GT(outside.place->mendable_outside, 0.2);
}

TEST(PlaceInWinding, IsNotSaidOfAFaultThatHasNone) {
    EXPECT_FALSE(diagnosis_of(R"({"quantity": "dc_resistance", "value": 6150, "unit": "ohm"},
        {"quantity": "inductance", "frequency": 1000, "value": 2.3, "unit": "H"},
        {"quantity": "quality_factor", "frequency": 1000, "value": 2.3, "unit": "1"})")
                     .place);
}

} // namespace
} // namespace coilward
