#include "bench/play.h"
#include "hostile/mutant.h"
#include "meter/driver_file.h"

#include <map>

#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::Mutant;

/// By driver: the capture of a meter whose reading stands still.
std::map<std::string, Capture> steady_captures() {
    std::map<std::string, Capture> captures;
    for (const auto& original : testing::originals_below(COILWARD_SOURCE_DIR "/captures", "/steady.capture"))
        captures.emplace(original.name.substr(0, original.name.find('/')),
                         capture_from_text(original.text, original.name));
    return captures;
}

TEST(HostileDrivers, ReadTheirMeterOrAreRefusedWithTheirPlace) {
    const auto captures = steady_captures();
    const auto ends =
        testing::try_mutants(testing::originals_below(COILWARD_SOURCE_DIR "/drivers", ".toml"), 50'000, 1000,
                             [&](const Mutant& mutant) {
                                 const std::string file = "drivers/" + mutant.original->name;
                                 std::vector<Complaint> complaints;
                                 const auto source = toml_from_text(mutant.text, file, complaints);
                                 const auto driver = source ? read_driver(*source, complaints) : std::nullopt;
                                 EXPECT_EQ(driver.has_value(), complaints.empty());
                                 for (const Complaint& complaint : complaints) {
                                     testing::expect_useful(complaint.headline());
                                     EXPECT_TRUE(complaint.headline().starts_with(file + ":"))
                                         << complaint.headline();
                                 }
                                 if (!driver) return false;
                                 try {
                                     play(*driver, captures.at(driver->id), [](const StampedReading&) {});
                                 } catch (const CannotMeasure& refusal) {
                                     testing::expect_one_line(refusal.what());
                                 }
                                 return true;
                             });
    testing::expect_both(ends, 300, 100);
}

} // namespace
} // namespace coilward
