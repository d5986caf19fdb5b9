#include "report/diagnosis_json.h"
#include "report/sample_diagnosis.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::sample_diagnosis;

TEST(DiagnosisJson, IsTheDocumentOfTheFormats) {
    EXPECT_EQ(
        diagnosis_to_json(sample_diagnosis()),
        R"({"id":"visit-7","coil_model":"six-rod-42",)"
        R"("verdict":{"fault":"shorted-turns","probability":0.97,"decided":true},)"
        R"("faults":[{"fault":"shorted-turns","probability":0.97,)"
        R"("estimates":[{"name":"shorted_fraction","value":0.031,"low":0.024,"high":0.04}]},)"
        R"({"fault":"healthy","probability":0.028,"estimates":[]},{"fault":"open","probability":0.002,"estimates":[]}],)"
        R"("comparisons":[{"quantity":"dc_resistance","between":"leads","measured":5930.0,)"
        R"("standard_uncertainty":9.0,"unit":"ohm","expected":[5720.0,6630.0],"standing":"within","probability_within":1.0},)"
        R"({"quantity":"inductance","between":"leads","circuit":"series","frequency":1000.0,"measured":1.9,)"
        R"("standard_uncertainty":0.01,"unit":"H","expected":[2.1,2.6],"standing":"below","probability_within":0.0}],)"
        R"("reasons":[{"reading":"series inductance at 1 kHz","says":"read 1.900 H: too low","decibans":14.2},)"
        R"({"reading":"DC resistance","says":"tells little","decibans":0.3}],)"
        R"("next":[{"reading":"polarity","gain_bits":0.41,"seconds":30.0,"how":"Touch a pole.","quantity":"polarity","between":"leads"},)"
        R"({"reading":"inductance at 120 Hz","gain_bits":0.2,"seconds":15.0,"how":"Set the meter.",)"
        R"("quantity":"inductance","between":"leads","frequency":120.0}],)"
        R"("advice":["Rewind."],"cautions":["Unplug the amplifier."],"notes":["no temperature was read"]})");
}

TEST(DiagnosisJson, EchoesTheIdAsItWas) {
    Diagnosis diagnosis = sample_diagnosis();
    for (const std::string id : {"7", "1.5", "true", "\"seven\""})
        EXPECT_TRUE(diagnosis_to_json(diagnosis, id).starts_with("{\"id\":" + id + ",\"coil_model\"")) << id;
    diagnosis.id.clear();
    EXPECT_TRUE(diagnosis_to_json(diagnosis).starts_with("{\"coil_model\""));
}

TEST(DiagnosisJson, HasTurnsPolarityHandlingAndCoilWhereThereAreAny) {
    Diagnosis d = sample_diagnosis();
    d.in_turns.shorted = Counted{243.0, 187.0, 318.0};
    d.polarity = PolarityFinding{.kick = Polarity::reversed, .says = "the kick is reversed"};
    d.next = {{"r",
               "h",
               0.1,
               30.0,
               {.quantity = Quantity::dc_resistance, .coil = "slug", .handling = Handling::pressed}}};
    const std::string json = diagnosis_to_json(d);
    for (const char* member :
         {R"("in_turns":{"shorted":{"value":243.0,"low":187.0,"high":318.0}},)",
          R"("polarity":{"kick":"reversed","says":"the kick is reversed"},)",
          R"("quantity":"dc_resistance","between":"leads","handling":"pressed","coil":"slug"}])"})
        EXPECT_NE(json.find(member), std::string::npos) << json;
}

} // namespace
} // namespace coilward
