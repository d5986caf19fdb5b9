// Beside a plain Monte Carlo integral, a mean of likelihoods over coils drawn from the prior.

#include "diagnosis/brute_force_posterior.h"
#include "diagnosis/healthy_mode.h"
#include "diagnosis/log_sum.h"
#include "diagnosis/nested_laplace.h"
#include "reading/examination_json.h"

#include <cmath>

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// ln of the readings' density if the coil is sound, by three ways.
struct Evidences {
    double laplace = 0.0;
    double nested = 0.0;
    double by_draws = 0.0;
};

Evidences evidences_of(const char* document) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    const Examination examination = examination_from_json(document);
    const CoilModel& model = *rules.coil_model(examination.coil_model);
    const CoilPrior prior = coil_prior(model, rules.allowed(model));
    const Evidence evidence = gather(examination.readings, rules);
    const Mode mode = healthy_mode(prior, evidence, never);
    const double nested = log_evidence_along(Unknown::eddy_share, Primitive::none,
                                             Component{.fixed = prior.mean}, prior, evidence, mode);
    const double volume = half_log_determinant(prior.precision);
    testing::Chance chance(20261127);
    const double drawn =
        testing::evidence_by_draws(*rules.fault("healthy"), prior, evidence, 1'000'000, chance);
    return {volume + mode.log_evidence, volume + nested, std::log(drawn)};
}

TEST(NestedLaplace, FollowsTheTailThatLaplaceCutsOff) {
    // A quality factor like that of a coil without eddy currents, but for three of its uncertainties.
    const Evidences ln = evidences_of(R"({"coil_model": "six-rod-42", "readings": [
{"quantity": "temperature", "value": 22, "standard_uncertainty": 2},
{"quantity": "dc_resistance", "value": 5650, "standard_uncertainty": 120},
{"quantity": "inductance", "circuit": "series", "frequency": 1000, "value": 2.02, "standard_uncertainty": 0.08},
{"quantity": "quality_factor", "frequency": 1000, "value": 1.85, "standard_uncertainty": 0.12}]})");
    EXPECT_GT(ln.by_draws - ln.laplace, 0.25);
    EXPECT_NEAR(ln.nested, ln.by_draws, 0.07);
}

TEST(NestedLaplace, IsLaplacesWhereNothingIsSkew) {
    const Evidences ln = evidences_of(R"({"coil_model": "six-rod-42", "readings": [
{"quantity": "temperature", "value": 22, "standard_uncertainty": 2},
{"quantity": "dc_resistance", "value": 5500, "standard_uncertainty": 120}]})");
    EXPECT_NEAR(ln.laplace, ln.by_draws, 0.03);
    EXPECT_NEAR(ln.nested, ln.laplace, 0.01);
}

} // namespace
} // namespace coilward
