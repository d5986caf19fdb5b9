#include "draw.h"
#include "healthy_population.h"
#include "models.h"
#include "protocol.h"

#include <cmath>
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

double resistance_in(const nlohmann::ordered_json& readings) {
    for (const auto& reading : readings)
        if (reading["quantity"] == "dc_resistance") return reading["value"];
    ADD_FAILURE() << "no DC resistance was read";
    return 1.0;
}

double squared_log_ratio(double one, double other) {
    return std::pow(std::log(one / other), 2);
}

/// The mean square by which the resistances of two sound coils of one construction differ, in logarithms.
double apart_by_chance() {
    constexpr int pairs = 400;
    double sum = 0.0;
    Random random(7, 7);
    const auto ohm = [&](const Construction& construction) {
        const Coil coil = draw_healthy(construction, random).coil;
        return coil.turns * coil.ohm_per_turn_20;
    };
    for (const Construction& construction : constructions())
        for (int pair = 0; pair < pairs; ++pair)
            sum += squared_log_ratio(ohm(construction), ohm(construction));
    return sum / static_cast<double>(pairs * constructions().size());
}

/// Coils of another set differ by what those of one set do, and besides by what any two coils do. A mean of
/// 400 squares is good to 7 %.
TEST(Draw, AnotherSetLiesFurtherOff) {
    constexpr int coils = 400;
    const DrawOptions its_own{.seed = 2, .protocol = "full", .of_its_set = 1, .fault = "healthy"};
    DrawOptions another = its_own;
    another.set_is_another = true;
    const auto apart = [](const DrawnCoil& drawn) {
        return squared_log_ratio(resistance_in(drawn.readings["alike"][0]["readings"]),
                                 resistance_in(drawn.readings["readings"])) /
               coils;
    };
    double within = 0.0;
    double between = 0.0;
    for (int index = 0; index < coils; ++index) {
        const DrawnCoil of_its_own = draw_coil(its_own, index);
        const DrawnCoil of_another = draw_coil(another, index);
        EXPECT_EQ(of_its_own.readings["readings"], of_another.readings["readings"]);
        within += apart(of_its_own);
        between += apart(of_another);
    }
    const double expected = within + apart_by_chance();
    EXPECT_NEAR(between, expected, 0.2 * expected) << within;
    EXPECT_GT(between, 1.2 * within);
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
