#include "draw.h"
#include "healthy_population.h"
#include "models.h"
#include "protocol.h"

#include <cstdio>
#include <set>

#include <gtest/gtest.h>

namespace population {
namespace {

TEST(Draw, SameSeedSameCoil) {
    const DrawOptions options{.seed = 5};
    EXPECT_EQ(draw_coil(options, 17).readings, draw_coil(options, 17).readings);
    EXPECT_NE(draw_coil(options, 17).readings["readings"], draw_coil(options, 18).readings["readings"]);
    EXPECT_NE(draw_coil(options, 17).readings["readings"], draw_coil({.seed = 6}, 17).readings["readings"]);
}

/// The first numbers of the 64-bit Mersenne twister are fixed by the C++ standard ([rand.predef]: the
/// 10,000th of the default seed is 9981545732273789042).
TEST(Draw, EngineIsTheStandardOne) {
    std::mt19937_64 engine;
    engine.discard(9999);
    EXPECT_EQ(engine(), 9981545732273789042ULL);
}

TEST(Draw, MixesAreAsStated) {
    for (const Mix mix : {Mix::even, Mix::bench}) {
        double sum = 0.0;
        std::map<std::string_view, int> counts;
        Random random(3, 0);
        for (int i = 0; i < 9000; ++i)
            ++counts[draw_fault(mix, random)];
        for (const std::string_view fault : fault_ids()) {
            sum += chance_of(fault, mix);
            EXPECT_NEAR(counts[fault] / 9000.0, chance_of(fault, mix), 0.02) << fault;
        }
        EXPECT_NEAR(sum, 1.0, 1e-12);
    }
}

TEST(Draw, EveryProtocolIsDrawnAndStatesItsReadings) {
    std::set<std::string> protocols;
    for (int i = 0; i < 60; ++i) {
        const DrawnCoil drawn = draw_coil({.seed = 9}, i);
        protocols.insert(drawn.label["protocol"].get<std::string>());
        EXPECT_EQ(drawn.label["id"], drawn.readings["id"]);
        EXPECT_GE(drawn.readings["readings"].size(), 2U);
    }
    EXPECT_EQ(protocols.size(), protocol_names().size());
}

TEST(Draw, EarlierExaminationIsOfTheHealthyCoil) {
    const DrawnCoil drawn = draw_coil({.seed = 2, .protocol = "full", .with_earlier = true}, 0);
    const auto& earlier = drawn.readings["earlier"][0];
    EXPECT_EQ(earlier["healthy"], true);
    EXPECT_EQ(earlier["readings"].size(), 11U);
}

TEST(Draw, CoilsMadeAlikeDifferAsTheyShould) {
    const DrawnCoil drawn = draw_coil({.seed = 2, .protocol = "full", .with_twin = true, .of_its_set = 2}, 0);
    const auto& alike = drawn.readings["alike"];
    ASSERT_EQ(alike.size(), 3U);
    EXPECT_EQ(alike[0]["as"], "set");
    EXPECT_EQ(alike[2]["as"], "twin");
    EXPECT_EQ(drawn.readings["readings"], draw_coil({.seed = 2, .protocol = "full"}, 0).readings["readings"]);
    EXPECT_NE(alike[0]["readings"], alike[1]["readings"]);
}

/// The range that a coil model states holds 95 % of other healthy coils: 1,000 of them, ± three standard
/// deviations.
TEST(Models, RangeIsTheCentral95PerCent) {
    const Construction& construction = constructions().front();
    const std::string text = coil_model_text(construction, 2000);
    double low = 0.0;
    double high = 0.0;
    const std::size_t line = text.find("dc_resistance");
    ASSERT_NE(line, std::string::npos);
    ASSERT_EQ(std::sscanf(text.c_str() + line, "dc_resistance = [%lf, %lf]", &low, &high), 2);
    int inside = 0;
    for (std::uint64_t i = 0; i < 1000; ++i) {
        Random random(99, i);
        const Coil coil = draw_healthy(construction, random).coil;
        const double ohm = coil.turns * coil.ohm_per_turn_20;
        inside += low <= ohm && ohm <= high ? 1 : 0;
    }
    EXPECT_NEAR(inside, 950, 25);
}

} // namespace
} // namespace population
