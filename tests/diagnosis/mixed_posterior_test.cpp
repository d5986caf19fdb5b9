#include "diagnosis/diagnosis.h"
#include "diagnosis/mixed_posterior.h"
#include "reading/examination_json.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

// Two priors weighed by how well each foretells the readings, beside Bayes' theorem by hand.

namespace coilward {
namespace {

/// Of two faults, of prior times evidence `sound` and `broken`, each with one explanation.
Posterior posterior_of(const std::vector<Fault>& faults, double sound, double broken) {
    Posterior posterior;
    for (const auto& [fault, weight] : {std::pair{&faults[0], sound}, std::pair{&faults[1], broken}}) {
        const double probability = weight / (sound + broken);
        FaultPosterior one{.fault = fault, .probability = probability, .log_weight = std::log(weight)};
        one.explanations.push_back({.component = {}, .mode = {}, .weight = probability});
        posterior.push_back(std::move(one));
    }
    return posterior;
}

TEST(MixedPosterior, WeighsByChanceAndByEvidence) {
    const std::vector<Fault> faults{{.id = "sound"}, {.id = "broken"}};
    // 0.8 · (0.03 + 0.01) = 0.032 against 0.2 · (0.1 + 0.3) = 0.08.
    const auto [posterior, chance_of_first] =
        mixed(posterior_of(faults, 0.03, 0.01), 0.8, posterior_of(faults, 0.1, 0.3));
    EXPECT_NEAR(chance_of_first, 0.032 / 0.112, 1e-12);
    ASSERT_EQ(posterior.size(), 2U);
    EXPECT_EQ(posterior[0].fault->id, "broken") << "the more probable first";
    EXPECT_NEAR(posterior[0].probability, (0.8 * 0.01 + 0.2 * 0.3) / 0.112, 1e-12);
    EXPECT_NEAR(posterior[1].probability, (0.8 * 0.03 + 0.2 * 0.1) / 0.112, 1e-12);
    EXPECT_NEAR(posterior[0].log_weight, std::log(0.8 * 0.01 + 0.2 * 0.3), 1e-12);
    for (const FaultPosterior& p : posterior) {
        ASSERT_EQ(p.explanations.size(), 2U);
        EXPECT_GE(p.explanations[0].weight, p.explanations[1].weight);
        EXPECT_NEAR(p.explanations[0].weight + p.explanations[1].weight, p.probability, 1e-12);
    }
}

/// A sound coil of a model with a range of 5.57 to 7.13 kΩ, beside two that read as told.
Diagnosis beside_a_set_of(const char* ohm) {
    const std::string readings = R"("readings": [
        {"quantity": "temperature", "value": 20, "standard_uncertainty": 0.5},
        {"quantity": "dc_resistance", "value": )";
    const std::string end = R"(, "standard_uncertainty": 9}])";
    const std::string kin = R"({"as": "set", "healthy": true, )" + readings + ohm + end + "}";
    static const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    return diagnose(rules, examination_from_json(R"({"coil_model": "six-rod-42", )" + readings + "6100" +
                                                 end + R"(, "alike": [)" + kin + ", " + kin + "]}"));
}

double chance_of(const char* fault, const Diagnosis& diagnosis) {
    for (const FaultProbability& each : diagnosis.faults)
        if (each.fault == fault) return each.probability;
    return 0.0;
}

TEST(MixedPosterior, DoubtsASetThatDoesNotFit) {
    const Diagnosis fitting = beside_a_set_of("6150");
    const Diagnosis strange = beside_a_set_of("7050");
    EXPECT_EQ(fitting.verdict.fault, "healthy");
    EXPECT_EQ(strange.verdict.fault, "healthy") << "13 % apart: another set, rather than a fault";
    EXPECT_GT(chance_of("healthy", fitting), chance_of("healthy", strange));
    const auto says = [](const Diagnosis& diagnosis) {
        return std::ranges::count(diagnosis.notes,
                                  "the coils that are taken for its set say little: it was hardly made with "
                                  "them");
    };
    EXPECT_EQ(says(fitting), 0);
    EXPECT_EQ(says(strange), 1);
}

} // namespace
} // namespace coilward
