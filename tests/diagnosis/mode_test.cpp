#include "diagnosis/coil_prior.h"
#include "diagnosis/evidence.h"
#include "diagnosis/hypothesis.h"
#include "diagnosis/mode.h"
#include "reading/examination_json.h"
#include "rules/rules.h"

#include <limits>

#include <gtest/gtest.h>

namespace coilward {
namespace {

// An invented coil that is broken where its wire leaves it: to the frame its start shows the whole winding's
// capacitance, its finish next to none.
constexpr const char* broken_at_its_finish = R"({"coil_model": "six-rod-42", "readings": [
{"quantity": "temperature", "value": 20, "standard_uncertainty": 0.5},
{"quantity": "dc_resistance", "between": "leads", "state": "over_range", "limit": 2e8},
{"quantity": "capacitance", "between": "start-frame", "frequency": 1000, "value": 7e-11, "standard_uncertainty": 7e-13},
{"quantity": "capacitance", "between": "finish-frame", "frequency": 1000, "value": 4e-12, "standard_uncertainty": 3e-13}]})";

TEST(Mode, IsTheSameFromInsideAndFromABound) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    const Examination examination = examination_from_json(broken_at_its_finish);
    const CoilModel& model = *rules.coil_model(examination.coil_model);
    const CoilPrior prior = coil_prior(model, rules.allowed(model));
    const Evidence evidence = gather(examination.readings, rules);
    const Hypothesis open = hypothesis_of(*rules.fault("open"), prior);
    constexpr double never_hopeless = -std::numeric_limits<double>::infinity();
    const auto evidence_from = [&](double position) {
        Values start = open.roaming.fixed;
        at(start, Unknown::break_position) = position;
        return roam(Primitive::series_element, open.roaming, prior, evidence, start,
                    {.hopeless = never_hopeless})
            ->log_evidence;
    };
    const double from_inside = evidence_from(0.9);
    EXPECT_NEAR(evidence_from(1.0), from_inside, 0.1);
    EXPECT_NEAR(evidence_from(0.6), from_inside, 0.1);
}

} // namespace
} // namespace coilward
