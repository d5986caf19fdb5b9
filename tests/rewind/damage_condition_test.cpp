#include "diagnosis/diagnosis.h"
#include "rewind/damage_condition.h"

#include <map>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

const std::set<std::string> damage{"open", "partial-break", "shorted-turns", "frame-leak", "still-wired"};

std::vector<StoredReading> stored(const std::vector<Reading>& readings, const std::string& coil) {
    std::vector<StoredReading> made;
    for (const Reading& reading : readings) {
        made.push_back({.reading = reading});
        made.back().reading.coil = coil;
    }
    return made;
}

Decision expected(const Diagnosis& diagnosis) {
    if (!damage.contains(diagnosis.verdict.fault)) return Decision::pass;
    return diagnosis.decided ? Decision::fail : Decision::measure_better;
}

/// The worked examples of every fault file, as coils that come off the winder.
TEST(DamageCondition, FollowsTheDiagnosisOfTheSameReadings) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    std::map<Decision, int> seen;
    for (const Fault& fault : rules.faults)
        for (const FaultCase& worked : fault.cases) {
            if (worked.coil_model.empty()) continue;
            SCOPED_TRACE(fault.id + ": " + worked.name);
            const Diagnosis diagnosis =
                diagnose(rules, {.coil_model = worked.coil_model, .readings = worked.readings});
            const HardCondition condition = damage_condition(rules, *rules.coil_model(worked.coil_model),
                                                             stored(worked.readings, "neck"));
            EXPECT_EQ(condition.name, "damage");
            EXPECT_EQ(condition.decision, expected(diagnosis));
            EXPECT_THAT(condition.says, ::testing::HasSubstr(rules.fault(diagnosis.verdict.fault)->title));
            ++seen[condition.decision];
        }
    for (const Decision decision : {Decision::pass, Decision::fail, Decision::measure_better})
        EXPECT_GT(seen[decision], 1) << name(decision);
}

} // namespace
} // namespace coilward
