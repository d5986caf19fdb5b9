#include "hostile/mutant.h"
#include "hostile/sound_answer.h"
#include "reading/examination_json.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::Mutant;

TEST(HostileReadings, AreJudgedOrRefusedInOneLine) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    const auto ends = testing::try_mutants(
        testing::originals_below(COILWARD_SOURCE_DIR "/docs/examples", ".json"), 10'000, 2500,
        [&](const Mutant& mutant) {
            Examination examination;
            try {
                examination = examination_from_json(mutant.text);
            } catch (const BadDocument& refusal) {
                testing::expect_useful(refusal.what());
                return false;
            }
            EXPECT_EQ(examination_from_json(examination_to_json(examination)).readings, examination.readings)
                << "what was accepted is what is written";
            testing::expect_an_answer(rules, examination);
            return true;
        });
    testing::expect_both(ends, 1000, 200);
}

} // namespace
} // namespace coilward
