#include "outcome.h"

#include <fstream>

#include <gtest/gtest.h>

namespace population {
namespace {

std::filesystem::path file(const std::string& name, const std::string& text) {
    const std::filesystem::path path = testing::TempDir() + "population_outcome_test_" + name;
    std::ofstream(path) << text;
    return path;
}

const std::string labels =
    R"({"id":"a","fault":"open","break_position":0.25,"coil_model":"m","world":"w","protocol":"full","nominal_resistance":6000})"
    "\n"
    R"({"id":"b","fault":"healthy","coil_model":"m","world":"w","protocol":"full","nominal_resistance":6000,"resistance_read":6012.5})"
    "\n";

/// An answer in the form that the formats document prints.
const std::string answer =
    R"({"id":"a","coil_model":"m","verdict":{"fault":"open","probability":0.97,"decided":true},)"
    R"("faults":[{"fault":"open","probability":0.97,"estimates":[{"name":"break_position","value":0.3,"low":0.2,"high":0.4}]},)"
    R"({"fault":"healthy","probability":0.03,"estimates":[]}]})"
    "\n";

TEST(Outcome, LabelsAndAnswersArePairedById) {
    const auto outcomes = read_outcomes(file("labels", labels), file("answers", R"({"line":1,"error":"bad"})"
                                                                                "\n" +
                                                                                    answer));
    ASSERT_EQ(outcomes.size(), 2U);
    EXPECT_TRUE(outcomes[0].right());
    EXPECT_TRUE(outcomes[0].decided);
    EXPECT_EQ(outcomes[0].probability, 0.97);
    EXPECT_EQ(outcomes[0].probabilities.at("healthy"), 0.03);
    EXPECT_EQ(outcomes[0].estimates.at("break_position").low, 0.2);
    EXPECT_EQ(outcomes[0].severities.at("break_position"), 0.25);
    EXPECT_FALSE(outcomes[1].answered);
    EXPECT_EQ(outcomes[1].resistance_read_ohm, 6012.5);
}

TEST(Outcome, BadLineIsNamed) {
    const auto bad = file("bad", answer + "{\n");
    try {
        read_outcomes(file("labels", labels), bad);
        FAIL() << "no complaint";
    } catch (const std::runtime_error& error) {
        EXPECT_EQ(std::string(error.what()), bad.string() + ":2: no JSON");
    }
}

} // namespace
} // namespace population
