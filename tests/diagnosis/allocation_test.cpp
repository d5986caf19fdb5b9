#include "diagnosis/allocation_count.h"
#include "diagnosis/coil_prior.h"
#include "diagnosis/hypothesis.h"
#include "diagnosis/mode.h"
#include "reading/examination_json.h"

#include <limits>
#include <string>

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// The inner loop of a diagnosis: the search for the mode of one component, of every fault that has a
/// circuit.
TEST(Allocation, NoneInASearchForAMode) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    const CoilModel& model = *rules.coil_model("six-rod-42");
    const CoilPrior prior = coil_prior(model, rules.allowed(model));
    const Evidence evidence = gather(examination_from_json(R"({"coil_model": "six-rod-42", "readings": [
  {"quantity": "temperature", "value": 21.5, "standard_uncertainty": 0.5},
  {"quantity": "dc_resistance", "value": 5981.0, "standard_uncertainty": 9.0},
  {"quantity": "inductance", "frequency": 1000, "value": 2.219, "standard_uncertainty": 0.0089},
  {"quantity": "quality_factor", "frequency": 1000, "value": 1.81, "standard_uncertainty": 0.018},
  {"quantity": "capacitance", "between": "start-frame", "frequency": 1000, "value": 4.24e-11, "standard_uncertainty": 7.2e-13},
  {"quantity": "insulation_resistance", "between": "finish-frame", "state": "over_range", "limit": 2e7}]})")
                                         .readings,
                                     rules);
    int searched = 0;
    for (const Fault& fault : rules.faults) {
        if (fault.primitive == Primitive::unlisted) continue;
        const Component component = component_at(hypothesis_of(fault, prior), 0);
        const long before = testing::allocation_count();
        find_mode(fault.primitive, component, prior, evidence, component.fixed,
                  -std::numeric_limits<double>::infinity());
        EXPECT_EQ(testing::allocation_count(), before) << fault.id;
        ++searched;
    }
    EXPECT_GT(searched, 5);
    const long before = testing::allocation_count();
    const std::string long_enough_to_need_memory(100, 'x');
    EXPECT_GT(testing::allocation_count(), before); // that it counts at all
}

} // namespace
} // namespace coilward
