#include "diagnosis/diagnosis.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

// Every fault's own worked cases, found by themselves: with a firing case's readings the fault leads, with a
// near miss's it does not.

namespace coilward {
namespace {

TEST(RuleCases, EveryFaultLeadsWhereItsCasesSayAndNowhereElse) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    for (const Fault& fault : rules.faults)
        for (const FaultCase& worked : fault.cases) {
            SCOPED_TRACE(fmt::format("{}: {}", fault.file, worked.name));
            const Diagnosis diagnosis =
                diagnose(rules, {.coil_model = worked.coil_model, .readings = worked.readings});
            EXPECT_EQ(diagnosis.verdict.fault == fault.id, worked.fires)
                << diagnosis.verdict.fault << " leads with " << diagnosis.verdict.probability;
        }
}

TEST(RuleCases, ProbabilitiesOfAllFaultsSumToOne) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    Examination nothing_read;
    nothing_read.coil_model = "six-rod-42";
    const Diagnosis diagnosis = diagnose(rules, nothing_read);
    double sum = 0.0;
    for (const FaultProbability& fault : diagnosis.faults)
        sum += fault.probability;
    EXPECT_EQ(diagnosis.faults.size(), rules.faults.size());
    EXPECT_NEAR(sum, 1.0, 1e-9);
}

} // namespace
} // namespace coilward
