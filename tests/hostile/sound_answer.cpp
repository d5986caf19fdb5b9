#include "hostile/sound_answer.h"

#include "cli/diagnosis_answer.h"
#include "hostile/mutant.h"

#include <gtest/gtest.h>

namespace coilward::testing {
namespace {

using Json = nlohmann::json;

/// JSON has no word for NaN or infinity: they are written as null.
void expect_no_null(const Json& part, const std::string& place) {
    EXPECT_FALSE(part.is_null()) << place;
    if (part.is_structured())
        for (const auto& [name, each] : part.items())
            expect_no_null(each, place + "/" + name);
}

} // namespace

void expect_sound(const Json& diagnosis) {
    if (!diagnosis.contains("faults")) {
        for (const auto& [name, coil] : diagnosis.at("coils").items())
            expect_sound(coil);
        return expect_sound(diagnosis.at("whole"));
    }
    expect_no_null(diagnosis, "");
    double sum = 0.0;
    double last = 1.0 + 1e-9;
    for (const Json& fault : diagnosis.at("faults")) {
        const double probability = fault.at("probability");
        EXPECT_GE(probability, 0.0);
        EXPECT_LE(probability, last) << "most probable first";
        last = probability;
        sum += probability;
        for (const Json& estimate : fault.at("estimates")) {
            EXPECT_LE(estimate.at("low"), estimate.at("value"));
            EXPECT_LE(estimate.at("value"), estimate.at("high"));
        }
    }
    EXPECT_NEAR(sum, 1.0, 1e-6) << diagnosis.dump();
    EXPECT_EQ(diagnosis.at("verdict").at("fault"), diagnosis.at("faults").at(0).at("fault"));
}

void expect_an_answer(const Rules& rules, const Examination& examination) {
    std::string document;
    try {
        document = answer_in_json(answer_to(rules, examination));
    } catch (const CannotDiagnose& refusal) {
        return expect_useful(refusal.what());
    }
    expect_sound(Json::parse(document));
}

} // namespace coilward::testing
