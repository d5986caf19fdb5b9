#include "reading/examination_json.h"
#include "rules/rules.h"
#include "sample_rules.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

#include <gtest/gtest.h>

namespace coilward {
namespace {

class ShippedRules : public testing::Test {
protected:
    const LoadedRules loaded = read_rules(COILWARD_SOURCE_DIR "/rules");
    const Rules& rules = loaded.rules;
};

const Severity* severity(const Fault& fault, std::string_view name) {
    const auto found = std::ranges::find(fault.severities, name, &Severity::name);
    return found == fault.severities.end() ? nullptr : &*found;
}

bool in_a_band(const Distribution& distribution, double value) {
    return std::ranges::any_of(distribution.bands,
                               [&](const auto& band) { return value >= band.low && value <= band.high; });
}

TEST_F(ShippedRules, LoadWithoutComplaint) {
    for (const Complaint& complaint : loaded.complaints)
        ADD_FAILURE() << complaint.text();
    EXPECT_GE(rules.coil_models.size(), 8U);
    EXPECT_GE(rules.pickup_types.size(), 5U);
}

/// The ids that other programs rely on (docs/formats.md).
TEST_F(ShippedRules, HaveTheFaultsThatTheDocumentsPromise) {
    std::set<std::string> ids;
    for (const Fault& fault : rules.faults)
        ids.insert(fault.id);
    EXPECT_EQ(ids, (std::set<std::string>{"healthy", "open", "shorted-turns", "partial-break", "frame-leak",
                                          "turns-off", "wrong-wire", "reversed-polarity", "still-wired",
                                          "unexplained"}));
}

TEST_F(ShippedRules, EstimateWhatTheDocumentsPromise) {
    std::set<std::string> names;
    for (const Fault& fault : rules.faults)
        for (const Severity& each : fault.severities)
            if (each.estimated) names.insert(each.name);
    for (const char* promised : {"shorted_fraction", "break_position", "series_resistance", "leak_resistance",
                                 "turns_factor", "resistance_factor"})
        EXPECT_TRUE(names.contains(promised)) << promised;
}

TEST_F(ShippedRules, HavePriorsThatSumToOne) {
    double sum = 0.0;
    for (const Fault& fault : rules.faults)
        sum += fault.prior;
    EXPECT_NEAR(sum, 1.0, 1e-9);
    for (const PickupType& type : rules.pickup_types) {
        if (type.joint_faults.empty()) continue;
        const double joint_sum =
            std::accumulate(type.joint_faults.begin(), type.joint_faults.end(), 0.0,
                            [](double total, const JointFault& joint) { return total + joint.prior; });
        EXPECT_NEAR(joint_sum, 1.0, 1e-9) << type.id;
    }
}

TEST_F(ShippedRules, ShowEachFaultTwiceAndTwiceWhatOnlyResemblesIt) {
    for (const Fault& fault : rules.faults) {
        const auto firing = std::ranges::count(fault.cases, true, &FaultCase::fires);
        EXPECT_GE(firing, 2) << fault.id;
        EXPECT_GE(std::ssize(fault.cases) - firing, 2) << fault.id;
    }
}

TEST_F(ShippedRules, HaveCasesThatAreReadingsDocuments) {
    for (const Fault& fault : rules.faults)
        for (const FaultCase& each : fault.cases) {
            const Examination examination = examination_from_json(
                examination_to_json({.coil_model = each.coil_model, .readings = each.readings}));
            EXPECT_FALSE(examination.readings.empty()) << fault.id << ": " << each.name;
            EXPECT_EQ(examination.readings, each.readings) << fault.id << ": " << each.name;
        }
}

bool any_holds(const std::vector<std::string>& texts, std::string_view words) {
    return std::ranges::any_of(texts, [&](const std::string& text) { return text.find(words) != text.npos; });
}

TEST_F(ShippedRules, WarnBeforeTheWorkThatTheyAdvise) {
    for (const Fault& fault : rules.faults) {
        EXPECT_TRUE(any_holds(fault.cautions, "unplug the amplifier")) << fault.id;
        if (fault.primitive == Primitive::leak || fault.primitive == Primitive::series_element) {
            EXPECT_TRUE(any_holds(fault.cautions, "50 V")) << fault.id;
        }
    }
    for (const BenchReading& reading : rules.bench_readings) {
        if (reading.quantity != Quantity::insulation_resistance) continue;
        EXPECT_TRUE(any_holds({reading.how}, "no more than 50 V")) << reading.how;
    }
}

/// ASTM B258: the diameter of a gauge is 0.005 in × 92^((36 − n)/39), so the resistance per length of the
/// next gauge is 92^(2/39) = 1.2610 times as much. Rounded nominal diameters, mil: 2.8, 2.5, 2.2, 2.0 for 41
/// to 44 AWG.
TEST_F(ShippedRules, KnowTheStepsFromGaugeToGauge) {
    const Fault* fault = rules.fault("wrong-wire");
    ASSERT_TRUE(fault);
    const Severity* factor = severity(*fault, "resistance_factor");
    ASSERT_TRUE(factor);
    const double step = std::pow(92.0, 2.0 / 39.0);
    const double rounded[] = {std::pow(2.8 / 2.5, 2.0), std::pow(2.5 / 2.2, 2.0), std::pow(2.2 / 2.0, 2.0)};
    const double double_steps[] = {step * step, rounded[0] * rounded[1], rounded[1] * rounded[2]};
    for (const double one : {step, rounded[0], rounded[1], rounded[2]}) {
        EXPECT_TRUE(in_a_band(factor->distribution, one)) << one;
        EXPECT_TRUE(in_a_band(factor->distribution, 1.0 / one)) << 1.0 / one;
    }
    for (const double two : double_steps) {
        EXPECT_TRUE(in_a_band(factor->distribution, two)) << two;
        EXPECT_TRUE(in_a_band(factor->distribution, 1.0 / two)) << 1.0 / two;
    }
    EXPECT_FALSE(in_a_band(factor->distribution, 1.0));
}

/// A sound coil is no fault of any size: no distribution of a factor reaches 1.
TEST_F(ShippedRules, LeaveRoomForHealthBetweenTheFactors) {
    const Fault* fault = rules.fault("turns-off");
    ASSERT_TRUE(fault);
    ASSERT_TRUE(severity(*fault, "turns_factor"));
    EXPECT_FALSE(in_a_band(severity(*fault, "turns_factor")->distribution, 1.0));
}

/// Readings on dead or dying coils that should have 5 to 6 kilohm: 223 kilohm (S39), 260 kilohm (S17).
TEST_F(ShippedRules, ReachThePublishedBreaks) {
    const Fault* fault = rules.fault("partial-break");
    ASSERT_TRUE(fault);
    for (const double ohm : {223e3 - 5e3, 260e3 - 6e3})
        EXPECT_TRUE(in_a_band(severity(*fault, "series_resistance")->distribution, ohm)) << ohm;
}

/// The parts of a document: "faults of the joint" (docs/formats.md).
TEST_F(ShippedRules, NameJointFaultsAsTheDocumentsDo) {
    const std::set<std::string> known{"as_expected", "coil-reversed", "coils-swapped",
                                      "joint-open",  "still-wired",   "unexplained"};
    for (const PickupType& type : rules.pickup_types) {
        EXPECT_EQ(type.joint_faults.empty(), type.join == Join::single) << type.id;
        for (const JointFault& joint : type.joint_faults)
            EXPECT_TRUE(known.contains(joint.id)) << type.id << ": " << joint.id;
    }
    const PickupType* dual = rules.pickup_type("dual-coil-series");
    ASSERT_TRUE(dual);
    ASSERT_EQ(dual->coils.size(), 2U);
    EXPECT_EQ(dual->coils[0].name, "slug");
    EXPECT_EQ(dual->coils[1].name, "screw");
    EXPECT_EQ(dual->joint_faults.size(), known.size());
}

/// Hum is cancelled while the strings are heard where both the sense and the magnet of the second coil are
/// turned.
TEST_F(ShippedRules, JoinCoilsSoThatHumIsCancelled) {
    for (const PickupType& type : rules.pickup_types) {
        if (type.coils.size() != 2) continue;
        EXPECT_EQ(type.coils[0].winding_sense, -type.coils[1].winding_sense) << type.id;
        const int magnets = type.coils[0].magnet_polarity * type.coils[1].magnet_polarity;
        EXPECT_LE(magnets, 0) << type.id;
    }
}

/// Published coils with inductance and resistance (S04, very low coil; S02; S05 with S01, screw coil; S11
/// with S24, wide flat coil): what the pickup types allow of L / R² must hold them all.
TEST_F(ShippedRules, AllowThePublishedInductancePerSquareOhm) {
    struct Pair {
        const char* model;
        double inductance_h;
        double resistance_ohm;
    };

    constexpr Pair pairs[] = {{"low-form-44", 1.462, 7406}, {"low-form-44", 1.398, 6894},
                              {"six-rod-42", 2.9, 6500},    {"screw-coil-42", 1.7, 4000},
                              {"hot-coil-44", 3.5, 8420},   {"wide-rod-42", 3.0, 7900},
                              {"wide-rod-42", 4.5, 7500}};
    for (const auto& [id, inductance, resistance] : pairs) {
        const CoilModel* model = rules.coil_model(id);
        ASSERT_TRUE(model) << id;
        const AllowedRanges allowed = rules.allowed(*model);
        ASSERT_TRUE(allowed.inductance_per_ohm2 && allowed.inductance_h) << id;
        const double ratio = inductance / (resistance * resistance);
        EXPECT_GE(ratio, allowed.inductance_per_ohm2->low) << id;
        EXPECT_LE(ratio, allowed.inductance_per_ohm2->high) << id;
        EXPECT_GE(inductance, allowed.inductance_h->low) << id;
        EXPECT_LE(inductance, allowed.inductance_h->high) << id;
    }
}

TEST_F(ShippedRules, SayHowEachReadingIsTaken) {
    const auto has = [&](Quantity quantity, Between between, std::optional<double> frequency) {
        return std::ranges::any_of(rules.bench_readings, [&](const BenchReading& reading) {
            return reading.quantity == quantity && reading.between == between &&
                   reading.frequency_hz == frequency;
        });
    };
    for (const double frequency : {100.0, 120.0, 1000.0, 10000.0})
        EXPECT_TRUE(has(Quantity::inductance, Between::leads, frequency)) << frequency;
    EXPECT_TRUE(has(Quantity::dc_resistance, Between::leads, std::nullopt));
    EXPECT_TRUE(has(Quantity::quality_factor, Between::leads, 1000.0));
    EXPECT_TRUE(has(Quantity::ac_resistance, Between::leads, 1000.0));
    EXPECT_TRUE(has(Quantity::polarity, Between::leads, std::nullopt));
    EXPECT_TRUE(has(Quantity::temperature, Between::leads, std::nullopt));
    EXPECT_TRUE(has(Quantity::resonance_frequency, Between::leads, std::nullopt));
    for (const Between lead : {Between::start_frame, Between::finish_frame}) {
        EXPECT_TRUE(has(Quantity::insulation_resistance, lead, std::nullopt));
        EXPECT_TRUE(has(Quantity::capacitance, lead, 1000.0));
    }
}

TEST_F(ShippedRules, SayHowACoilIsHandledAndWhatToBewareOf) {
    const auto how = [&](Handling handling) {
        std::string all;
        for (const BenchReading& reading : rules.handled_readings)
            if (reading.handling == handling) all += reading.how;
        return all;
    };
    EXPECT_NE(how(Handling::warmed).find("lowest heat"), std::string::npos);
    EXPECT_NE(how(Handling::warmed).find("wax, plastic bobbins and old enamel soften"), std::string::npos);
    EXPECT_NE(how(Handling::pressed).find("stick"), std::string::npos);
    EXPECT_NE(how(Handling::lifted).find("Unplug the amplifier"), std::string::npos);
}

// A fault file that says nothing of handling is as likely to move then as its readings are to wander.
TEST(FaultFile, WithoutAResponseMovesAsOftenAsItWanders) {
    const SampleRules sample;
    const Rules rules = load_rules(sample.folder());
    for (const Fault& fault : rules.faults) {
        EXPECT_EQ(fault.response.warmed, fault.unstable_chance);
        EXPECT_EQ(fault.response.pressed, fault.unstable_chance);
        EXPECT_EQ(fault.magnet_pole.as_expected, usual_magnet_pole.as_expected);
    }
    sample.write("faults/leaky.toml", sample.text_of("faults/leaky.toml") + "\n[response]\npressed = 0.7\n");
    const Rules told = load_rules(sample.folder());
    EXPECT_EQ(told.fault("leaky")->response.pressed, 0.7);
    EXPECT_EQ(told.fault("leaky")->response.warmed, told.fault("leaky")->unstable_chance);
}

} // namespace
} // namespace coilward
