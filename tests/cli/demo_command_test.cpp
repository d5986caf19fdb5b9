#include "cli/program_run.h"
#include "history/history.h"
#include "sanitize/slowed_down.h"

#include <chrono>
#include <filesystem>

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using testing::Coilward;
using ::testing::HasSubstr;

/// What is true of the invented pickups.
struct Truth {
    const char* name;
    const char* fault;
    const char* estimate; ///< may be null
    double value;
};

constexpr Truth truths[] = {
    {"Lighthouse, neck", "open", "break_position", 1.0},
    {"Lighthouse, bridge", "shorted-turns", "shorted_fraction", 0.03},
    {"Harbour, lead", "healthy", nullptr, 0.0},
};

TEST_F(Coilward, DemonstratesThreePickupsInTenSeconds) {
    const auto began = std::chrono::steady_clock::now();
    const auto end = coilward({"demo"});
    const auto took = std::chrono::steady_clock::now() - began;
    EXPECT_EQ(end.exit_code, 0) << end.err;
    if (!testing::slowed_down) {
        EXPECT_LT(took, std::chrono::seconds(10));
    }
    EXPECT_THAT(end.out, HasSubstr("Three invented pickups on a bench of simulated meters."));
    EXPECT_THAT(end.out,
                HasSubstr("  coilward history lighthouse-neck --data " + folder.path().string() + "\n"));
    const History history(folder.path());
    ASSERT_EQ(history.pickups().size(), std::size(truths));
    for (std::size_t i = 0; i < std::size(truths); ++i) {
        const Truth& truth = truths[i];
        SCOPED_TRACE(truth.name);
        const auto pickup = history.pickup(static_cast<std::int64_t>(i) + 1).value();
        EXPECT_EQ(pickup.name, truth.name);
        const auto visits = history.visits_of(pickup.id);
        ASSERT_EQ(visits.size(), 1U);
        for (const auto& kept : history.readings_of(visits[0].id))
            EXPECT_EQ(kept.raw.empty(), kept.meter.empty()) << "every meter's bytes are kept";
        const auto verdict = history.verdicts_of(visits[0].id).at(0);
        EXPECT_EQ(verdict.fault, truth.fault);
        EXPECT_TRUE(verdict.decided) << verdict.probability;
        if (!truth.estimate) continue;
        const auto estimate = nlohmann::json::parse(verdict.document)["faults"][0]["estimates"][0];
        EXPECT_EQ(estimate["name"], truth.estimate);
        EXPECT_LE(estimate["low"], truth.value);
        EXPECT_GE(estimate["high"], truth.value);
    }
}

TEST_F(Coilward, DemonstratesApartFromAPersonsOwnHistory) {
    const std::string data = "XDG_DATA_HOME=" + folder.path().string();
    const auto end = testing::run_program("/usr/bin/env", {data, COILWARD_PROGRAM, "demo"});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    const auto own = folder.path() / "coilward";
    EXPECT_THAT(end.out, HasSubstr(" --data " + (own / "demonstration").string() + "\n"));
    EXPECT_EQ(History(own / "demonstration").pickups().size(), std::size(truths));
    EXPECT_FALSE(std::filesystem::exists(own / "history.sqlite"));
}

TEST_F(Coilward, DemonstratesTheSameTwiceAndAddsAVisit) {
    const auto first = coilward({"demo"});
    EXPECT_EQ(coilward({"demo"}), first);
    const History history(folder.path());
    EXPECT_EQ(history.pickups().size(), std::size(truths));
    EXPECT_EQ(history.visits_of(history.pickup(1)->id).size(), 2U);
}

} // namespace
} // namespace coilward
