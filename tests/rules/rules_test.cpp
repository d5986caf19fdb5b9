#include "reading/examination_json.h"
#include "rules/rules.h"
#include "sample_rules.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

void expect_range(const std::optional<Range>& range, double low, double high) {
    ASSERT_TRUE(range);
    EXPECT_DOUBLE_EQ(range->low, low);
    EXPECT_DOUBLE_EQ(range->high, high);
}

constexpr std::string_view required_keys_only = R"(id = "b"
title = "Only what is required"
source = "invented for the tests"
[wire]
conductor_diameter = 63.3e-6
[expect]
dc_resistance = [5700, 6600]
)";

constexpr std::string_view single_pickup = R"(id = "lone"
title = "One coil"
source = "invented for the tests"
join = "single"
[[coil]]
name = "coil"
models = ["b"]
winding = "clockwise"
magnet = "none"
[allows]
turns = [6000, 14000]
inductance = [2.0, 6.0]
inductance_per_ohm2 = [2e-8, 1e-7]
quality_factor = [0.8, 6.0]
self_capacitance = [50e-12, 200e-12]
frame_capacitance = [10e-12, 300e-12]
)";

TEST(Rules, ReadEveryKeyOfACoilModel) {
    const SampleRules sample;
    const Rules rules = load_rules(sample.folder());
    const CoilModel* model = rules.coil_model("a");
    ASSERT_TRUE(model);
    EXPECT_EQ(model->title, "A coil");
    EXPECT_EQ(model->source, "invented for the tests");
    EXPECT_EQ(sample.relative(model->file), "rules/coils/a.toml");
    EXPECT_EQ(model->wire.awg, 42);
    EXPECT_FALSE(model->wire.conductor_diameter_m);
    EXPECT_EQ(model->wire.insulation, "plain enamel");
    expect_range(model->turns, 7500, 8100);
    expect_range(model->mean_turn_length_m, 0.118, 0.126);
    EXPECT_EQ(model->bobbin.core_length_m, 0.056);
    EXPECT_EQ(model->bobbin.core_width_m, 0.0048);
    EXPECT_EQ(model->bobbin.wound_height_m, 0.0105);
    EXPECT_EQ(model->bobbin.flange_length_m, 0.070);
    EXPECT_EQ(model->bobbin.flange_width_m, 0.016);
    EXPECT_EQ(model->test_frequency_hz, 1000.0);
    EXPECT_EQ(model->circuit, Circuit::series);
    expect_range(model->dc_resistance_ohm, 5700, 6600);
    expect_range(model->inductance_h, 2.10, 2.62);
    expect_range(model->quality_factor, 2.00, 2.70);
    expect_range(model->self_capacitance_f, 70e-12, 155e-12);
    expect_range(model->frame_capacitance_f, 20e-12, 60e-12);
}

TEST(Rules, TakeACoilModelWithTheRequiredKeysOnly) {
    const SampleRules sample;
    sample.write("coils/b.toml", required_keys_only);
    const Rules rules = load_rules(sample.folder());
    const CoilModel* model = rules.coil_model("b");
    ASSERT_TRUE(model);
    EXPECT_FALSE(model->wire.awg);
    EXPECT_EQ(model->wire.conductor_diameter_m, 63.3e-6);
    EXPECT_EQ(model->test_frequency_hz, 1000.0);
    EXPECT_EQ(model->circuit, Circuit::series);
    EXPECT_FALSE(model->turns || model->mean_turn_length_m || model->inductance_h || model->quality_factor ||
                 model->self_capacitance_f || model->frame_capacitance_f);
}

TEST(Rules, ReadEveryKeyOfAFault) {
    const SampleRules sample;
    const Rules rules = load_rules(sample.folder());
    const Fault* fault = rules.fault("leaky");
    ASSERT_TRUE(fault);
    EXPECT_EQ(fault->status, FaultStatus::draft);
    EXPECT_EQ(fault->prior, 0.3);
    EXPECT_EQ(fault->primitive, Primitive::leak);
    EXPECT_EQ(fault->unstable_chance, 0.01);
    EXPECT_EQ(fault->decide_at, 0.95);
    EXPECT_EQ(fault->advice, std::vector<std::string>{"Do what is right."});
    EXPECT_EQ(fault->cautions, std::vector<std::string>{"Take care."});
    EXPECT_EQ(fault->polarity.as_expected, 0.98);
    EXPECT_EQ(fault->polarity.reversed, 0.015);
    EXPECT_EQ(fault->polarity.none, 0.005);
    ASSERT_EQ(fault->severities.size(), 2U);
    const Severity& resistance = fault->severities[0];
    EXPECT_EQ(resistance.name, "leak_resistance");
    EXPECT_TRUE(resistance.estimated);
    EXPECT_EQ(resistance.distribution.kind, Distribution::Kind::log_uniform);
    EXPECT_EQ(resistance.distribution.points, 14);
    ASSERT_EQ(resistance.distribution.bands.size(), 2U);
    EXPECT_EQ(resistance.distribution.bands[1].low, 2000.0);
    EXPECT_EQ(resistance.distribution.bands[1].high, 1e8);
    const Severity& position = fault->severities[1];
    EXPECT_FALSE(position.estimated);
    EXPECT_EQ(position.distribution.kind, Distribution::Kind::uniform);
    EXPECT_EQ(position.distribution.at_ends, 0.1);
    ASSERT_EQ(fault->signs.size(), 1U);
    EXPECT_EQ(fault->signs[0].shows, "something");
    ASSERT_EQ(fault->cases.size(), 2U);
    EXPECT_TRUE(fault->cases[0].fires);
    EXPECT_EQ(fault->cases[0].coil_model, "a");
    ASSERT_EQ(fault->cases[0].readings.size(), 1U);
    EXPECT_EQ(fault->cases[0].readings[0],
              (Reading{.quantity = Quantity::dc_resistance, .value = 6000.0, .standard_uncertainty = 9.0}));
}

TEST(Rules, ReadFixedAndLogNormalDistributions) {
    const SampleRules sample;
    sample.replace("faults/leaky.toml",
                   "distribution = \"log-uniform\"\nbands = [[10, 1000], [2000, 1e8]]\npoints = 14",
                   "distribution = \"fixed\"\nvalue = 4700");
    sample.replace("faults/leaky.toml",
                   "distribution = \"uniform\"\nbands = [[0, 1]]\nat_ends = 0.1\npoints = 5",
                   "distribution = \"log-normal\"\nmedian = 0.2\nlog_deviation = 0.8");
    const Rules rules = load_rules(sample.folder());
    const auto& severities = rules.fault("leaky")->severities;
    EXPECT_EQ(severities[0].distribution.kind, Distribution::Kind::fixed);
    EXPECT_EQ(severities[0].distribution.value, 4700.0);
    EXPECT_EQ(severities[1].distribution.kind, Distribution::Kind::log_normal);
    EXPECT_EQ(severities[1].distribution.median, 0.2);
    EXPECT_EQ(severities[1].distribution.log_deviation, 0.8);
}

TEST(Rules, ReadAPickupTypeOfTwoCoils) {
    const SampleRules sample;
    const Rules rules = load_rules(sample.folder());
    const PickupType* pair = rules.pickup_type("pair");
    ASSERT_TRUE(pair);
    EXPECT_EQ(pair->join, Join::series);
    expect_range(pair->coupling, 0.03, 0.25);
    ASSERT_EQ(pair->coils.size(), 2U);
    EXPECT_EQ(pair->coils[0].models, std::vector<std::string>{"a"});
    EXPECT_EQ(pair->coils[0].winding_sense, 1);
    EXPECT_EQ(pair->coils[0].magnet_polarity, 1);
    EXPECT_TRUE(pair->coils[1].models.empty());
    EXPECT_EQ(pair->coils[1].winding_sense, -1);
    EXPECT_EQ(pair->coils[1].magnet_polarity, -1);
    EXPECT_EQ(pair->decide_joint_at, 0.9);
    ASSERT_EQ(pair->joint_faults.size(), 3U);
    EXPECT_EQ(pair->joint_faults[1].id, "torn");
    EXPECT_EQ(pair->joint_faults[1].change, JointChange::open);
    EXPECT_EQ(pair->joint_faults[1].severities.size(), 2U);
}

TEST(Rules, ReadABenchReading) {
    const SampleRules sample;
    const Rules rules = load_rules(sample.folder());
    ASSERT_EQ(rules.bench_readings.size(), 3U);
    const BenchReading& resistance = rules.bench_readings[0];
    EXPECT_EQ(resistance.quantity, Quantity::dc_resistance);
    EXPECT_EQ(resistance.between, Between::leads);
    EXPECT_FALSE(resistance.frequency_hz);
    EXPECT_EQ(resistance.seconds, 10.0);
    EXPECT_EQ(resistance.relative_uncertainty, 0.003);
    EXPECT_EQ(resistance.absolute_uncertainty, 3.0);
    EXPECT_EQ(resistance.range_limit, 20e6);
    EXPECT_EQ(resistance.how, "Clip a probe to each lead.");
    EXPECT_EQ(rules.bench_readings[1].frequency_hz, 1000.0);
}

TEST(Rules, AllowWhatTheTypesThatUseAModelAllow) {
    const SampleRules sample;
    sample.write("coils/b.toml", required_keys_only);
    sample.write("pickups/lone.toml", single_pickup);
    const Rules rules = load_rules(sample.folder());
    expect_range(rules.allowed(*rules.coil_model("a")).turns, 3000, 9500);
    expect_range(rules.allowed(*rules.coil_model("b")).turns, 6000, 14000);
    expect_range(rules.allowed(*rules.coil_model("b")).inductance_h, 2.0, 6.0);
}

TEST(Rules, AllowTheWidestOfAllTypesWhereNoneNamesTheModel) {
    const SampleRules sample;
    sample.write("coils/b.toml", required_keys_only);
    sample.write("pickups/lone.toml", single_pickup);
    const Rules rules = load_rules(sample.folder());
    CoilModel stranger = *rules.coil_model("b");
    stranger.id = "stranger";
    const AllowedRanges allowed = rules.allowed(stranger);
    expect_range(allowed.turns, 3000, 14000);
    expect_range(allowed.inductance_h, 0.8, 8.0);
    expect_range(allowed.inductance_per_ohm2, 2e-8, 2.5e-7);
    expect_range(allowed.quality_factor, 0.6, 6.0);
    expect_range(allowed.self_capacitance_f, 30e-12, 300e-12);
    expect_range(allowed.frame_capacitance_f, 5e-12, 300e-12);
}

TEST(Rules, KnowNothingOfIdsThatAreNotThere) {
    const SampleRules sample;
    const Rules rules = load_rules(sample.folder());
    EXPECT_FALSE(rules.coil_model("b"));
    EXPECT_FALSE(rules.pickup_type("a"));
    EXPECT_FALSE(rules.fault(""));
}

TEST(Rules, KeepTheGoodFilesBesideABadOne) {
    const SampleRules sample;
    sample.write("coils/b.toml", "id = 1");
    const LoadedRules loaded = read_rules(sample.folder());
    EXPECT_FALSE(loaded.complaints.empty());
    EXPECT_TRUE(loaded.rules.coil_model("a"));
    EXPECT_EQ(loaded.rules.coil_models.size(), 1U);
    EXPECT_EQ(loaded.rules.faults.size(), 3U);
}

TEST(Rules, DoNotComplainOfACaseWhoseCoilModelIsOnlyBadlyWritten) {
    const SampleRules sample;
    sample.replace("coils/a.toml", "awg = 42", "awg = 420");
    EXPECT_EQ(read_rules(sample.folder()).complaints.size(), 1U);
}

TEST(Rules, LeaveFilesAloneThatAreNoToml) {
    const SampleRules sample;
    sample.write("coils/README.md", "# Coils");
    sample.write("coils/a.toml~", "id = ");
    EXPECT_TRUE(read_rules(sample.folder()).complaints.empty());
}

TEST(Rules, ThrowTheFirstComplaintAndTheNumberOfTheOthers) {
    const SampleRules sample;
    sample.replace("coils/a.toml", "[5700, 6600]", "[5.7, 6.6]");
    sample.replace("coils/a.toml", "title = \"A coil\"", "title = 7");
    try {
        load_rules(sample.folder());
        FAIL() << "accepted";
    } catch (const BadRules& bad) {
        EXPECT_EQ(sample.relative(bad.what()),
                  "rules/coils/a.toml:2: title: found a whole number, expected text\n"
                  "  title = 7\n"
                  "          ^\n"
                  "(and 1 more)");
        ASSERT_EQ(bad.complaints.size(), 2U);
        EXPECT_EQ(sample.relative(bad.complaints[1].headline()),
                  "rules/coils/a.toml:23: expect.dc_resistance: found [5.7, 6.6], expected ohm from 50 to "
                  "200000; if "
                  "that is in kiloohm, write [5700, 6600]");
    }
}

} // namespace
} // namespace coilward
