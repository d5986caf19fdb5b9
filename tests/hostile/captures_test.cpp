#include "bench/play.h"
#include "hostile/mutant.h"
#include "meter/driver_folder.h"
#include "reading/examination_json.h"

#include <cmath>

#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::Mutant;

/// What left a decoder can be written, and is what it was when it is read again.
void expect_sound(const StampedReading& stamped) {
    for (const auto& number : {stamped.reading.value, stamped.reading.limit, stamped.reading.frequency_hz,
                               stamped.reading.standard_uncertainty})
        EXPECT_TRUE(!number || std::isfinite(*number)) << watch_line(stamped);
    EXPECT_EQ(watch_line(stamped).find('\n'), std::string::npos);
    EXPECT_FALSE(stamped.raw.empty());
}

TEST(HostileCaptures, ArePlayedOrRefusedWithTheirLine) {
    const std::vector<Driver> drivers = load_drivers(COILWARD_SOURCE_DIR "/drivers");
    const auto ends = testing::try_mutants(
        testing::originals_below(COILWARD_SOURCE_DIR "/captures", ".capture"), 30'000, 2500,
        [&](const Mutant& mutant) {
            const std::string file = "captures/" + mutant.original->name;
            Capture capture;
            try {
                capture = capture_from_text(mutant.text, file);
            } catch (const BadCapture& refusal) {
                testing::expect_useful(refusal.what());
                EXPECT_TRUE(std::string(refusal.what()).starts_with(file + ":")) << refusal.what();
                return false;
            }
            EXPECT_EQ(to_text(capture_from_text(to_text(capture), file)), to_text(capture));
            const Driver* driver = driver_named(drivers, capture.driver);
            if (!driver) return true; // nobody's
            try {
                play(*driver, capture, expect_sound);
            } catch (const CannotMeasure& refusal) {
                testing::expect_one_line(refusal.what());
            }
            return true;
        });
    testing::expect_both(ends, 500, 500);
}

} // namespace
} // namespace coilward
