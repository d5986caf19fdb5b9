#include "diagnosis/change_since.h"
#include "diagnosis/coil_prior.h"
#include "diagnosis/diagnosis.h"
#include "reading/examination_json.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

namespace coilward {
namespace {

const Rules& rules() {
    static const Rules loaded = load_rules(COILWARD_SOURCE_DIR "/rules");
    return loaded;
}

Examination own_past() {
    std::ifstream file(COILWARD_SOURCE_DIR "/docs/examples/own-past.json");
    std::ostringstream text;
    text << file.rdbuf();
    return examination_from_json(text.str());
}

std::optional<Change> change_of_resistance(const Examination& examination) {
    const CoilModel& model = *rules().coil_model("six-rod-42");
    const OwnHistory history =
        own_history(rules(), coil_prior(model, rules().allowed(model)), examination.earlier);
    const CoilTemperature today = coil_temperature(gather(examination.readings, rules()), history.prior);
    return change_since(history.visits.front(), {examination.readings[1], today}, history.prior, rules());
}

/// By hand, with copper's 0.00393/K at 20 °C (IEC 60028): 6104 Ω at 19.8 °C are 6159 Ω at 22.1 °C, each
/// temperature known to 0.3 K by its thermometer and 0.4 K by where that lies.
TEST(ChangeSince, IsTakenAtTodaysTemperatureAndAgainstBothUncertainties) {
    const Examination examination = own_past();
    const auto change = change_of_resistance(examination);
    ASSERT_TRUE(change);
    const double at_20 = 6104.0 / (1.0 + 0.00393 * (19.8 - 20.0));
    EXPECT_NEAR(change->then_at_now, at_20 * (1.0 + 0.00393 * (22.1 - 20.0)), 1.0);
    const double by_temperature = at_20 * 0.00393 * std::sqrt(2.0) * std::hypot(0.3, 0.4);
    EXPECT_NEAR(change->standard_uncertainty, std::hypot(6.0, 6.0, by_temperature), 0.4);
    EXPECT_NEAR(change->deviations(), -3.2, 0.1);
}

TEST(ChangeSince, StandsInTheReasons) {
    const Diagnosis diagnosis = diagnose(rules(), own_past());
    const auto reason = std::ranges::find(diagnosis.reasons, "DC resistance", &Reason::reading);
    ASSERT_NE(reason, diagnosis.reasons.end());
    EXPECT_NE(reason->says.find("; on 2024-03-02 it read 6.104 kΩ, 6.159 kΩ at today's temperature: changed "
                                "beyond the uncertainty of both (3.2 standard uncertainties)"),
              std::string::npos)
        << reason->says;
}

TEST(ChangeSince, IsNothingWhereNobodyAskedTheSame) {
    Examination examination = own_past();
    examination.earlier.front().readings.erase(examination.earlier.front().readings.begin() + 1);
    EXPECT_FALSE(change_of_resistance(examination));
}

} // namespace
} // namespace coilward
