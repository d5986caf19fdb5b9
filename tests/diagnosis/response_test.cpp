#include "diagnosis/coil_finding.h"
#include "diagnosis/mutual_information.h"
#include "diagnosis/response.h"

#include <cmath>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

// How a coil answers to being warmed, pressed, or freed of its controls. Copper's temperature coefficient of
// 0.393 % a kelvin at 20 °C is that of IEC 60028; the resistances below are products of it.

namespace coilward {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;

const Rules& rules() {
    static const Rules shipped = load_rules(COILWARD_SOURCE_DIR "/rules");
    return shipped;
}

Reading resistance(double ohm, std::optional<Handling> handling = {}) {
    return {.quantity = Quantity::dc_resistance,
            .value = ohm,
            .standard_uncertainty = 0.0015 * ohm,
            .handling = handling};
}

Reading over_range(std::optional<Handling> handling = {}) {
    return {
        .quantity = Quantity::dc_resistance, .state = State::over_range, .limit = 2e7, .handling = handling};
}

Reading wandering(Handling handling) {
    return {.quantity = Quantity::dc_resistance,
            .state = State::unstable,
            .value = 6900.0,
            .spread = 400.0,
            .handling = handling};
}

struct Moved {
    const char* what;
    Reading at_rest;
    Reading handled;
    bool oddly;
};

const Moved moves[] = {
    {"pressed, as before", resistance(6200.0), resistance(6203.0, Handling::pressed), false},
    {"pressed, half a kelvin of the fingers", resistance(6200.0), resistance(6212.0, Handling::pressed),
     false},
    {"pressed, another contact", resistance(6200.0), resistance(6900.0, Handling::pressed), true},
    {"pressed, wandering", resistance(6200.0), wandering(Handling::pressed), true},
    {"pressed, gone", resistance(6200.0), over_range(Handling::pressed), true},
    {"pressed, back again", over_range(), resistance(6200.0, Handling::pressed), true},
    {"pressed, open as before", over_range(), over_range(Handling::pressed), false},
    {"10 K warmer: 1.0393 times", resistance(6200.0), resistance(6443.7, Handling::warmed), false},
    {"4 K warmer: 1.0157 times", resistance(6200.0), resistance(6297.5, Handling::warmed), false},
    {"warmed, and not a bit more", resistance(6200.0), resistance(6201.0, Handling::warmed), true},
    {"warmed, falling", resistance(6200.0), resistance(5900.0, Handling::warmed), true},
    {"warmed, as if by 130 K", resistance(6200.0), resistance(9400.0, Handling::warmed), true},
};

TEST(Response, MovesOddlyWhereSoundCopperWouldNot) {
    for (const Moved& move : moves) {
        const auto sorted = by_use({move.at_rest, move.handled}, rules());
        ASSERT_EQ(sorted.responses.size(), 1U) << move.what;
        EXPECT_EQ(moved_oddly(sorted.responses.front()), move.oddly) << move.what;
    }
}

TEST(Response, TellsTheKelvinOfCopper) {
    const auto sorted = by_use({resistance(6200.0), resistance(6443.7, Handling::warmed)}, rules());
    EXPECT_NEAR(kelvin_of_copper(sorted.responses.front()), 10.0, 0.01);
}

TEST(Response, IsLeftOutWithAWordWhereItCannotBeJudged) {
    const Reading capacitance{.quantity = Quantity::capacitance,
                              .between = Between::start_frame,
                              .frequency_hz = 1000.0,
                              .value = 4e-11,
                              .handling = Handling::warmed};
    Reading unsteady = resistance(6200.0);
    unsteady.state = State::unstable;

    const struct {
        std::vector<Reading> readings;
        const char* why;
    } rows[] = {
        {{resistance(6200.0, Handling::pressed)},
         "DC resistance with the joints pressed: not used, it needs the "
         "same reading of the coil at rest beside it"},
        {{unsteady, resistance(6200.0, Handling::pressed)},
         "DC resistance with the joints pressed: not used, the coil's reading wandered at rest already"},
        {{capacitance},
         "capacitance from start to frame at 1 kHz with the coil warmed: not used, a handled coil is "
         "judged across its leads, a warm or pressed one by its DC resistance"},
        {{resistance(6200.0), over_range(Handling::lifted)},
         "DC resistance with the controls lifted off: not used, what the controls did shows only between two "
         "numbers"},
    };

    for (const auto& row : rows) {
        const auto sorted = by_use(row.readings, rules());
        EXPECT_TRUE(sorted.responses.empty()) << row.why;
        EXPECT_THAT(sorted.notes, Contains(row.why));
        EXPECT_THAT(diagnose(rules(), {.coil_model = "six-rod-42", .readings = row.readings}).notes,
                    Contains(row.why));
    }
}

double probability_of(const std::string& fault, const std::vector<Reading>& readings) {
    const Diagnosis diagnosis = diagnose(rules(), {.coil_model = "six-rod-42", .readings = readings});
    return std::ranges::find(diagnosis.faults, fault, &FaultProbability::fault)->probability;
}

const std::vector<Reading> too_much{{.quantity = Quantity::temperature, .value = 20.0}, resistance(7000.0)};

std::vector<Reading> too_much_and(const Reading& handled) {
    auto readings = too_much;
    readings.push_back(handled);
    return readings;
}

// The posterior odds are the prior ones times the ratio of the chances in the fault files: 0.5 to 0.01 for a
// joint that is pressed (Bayes' theorem, by hand).
TEST(Response, ChangesTheOddsByTheChancesInTheFaultFiles) {
    const auto odds = [](const std::vector<Reading>& readings) {
        return probability_of("partial-break", readings) / probability_of("wrong-wire", readings);
    };
    const double before = odds(too_much);
    EXPECT_NEAR(odds(too_much_and(resistance(7600.0, Handling::pressed))) / before, 0.5 / 0.01, 1e-6);
    EXPECT_NEAR(odds(too_much_and(resistance(7001.0, Handling::pressed))) / before, 0.5 / 0.99, 1e-6);
}

// 260 kΩ where 6 belong: of ten kelvin of copper only a fortieth is left to see.
TEST(Response, OfAGapOfManyKiloohmsToWarmthIsNoneThatCopperGives) {
    const std::vector<Reading> readings{{.quantity = Quantity::temperature, .value = 20.0},
                                        resistance(260e3)};
    const CoilFinding finding = finding_of(rules(), {.coil_model = "six-rod-42", .readings = readings});
    const auto gap = std::ranges::find(finding.posterior, "partial-break",
                                       [](const FaultPosterior& p) { return p.fault->id; });
    const auto sorted = by_use({readings[1], resistance(260.9e3, Handling::warmed)}, rules());
    EXPECT_NEAR(std::exp(log_likelihood(sorted.responses.front(), *gap->fault, &gap->explanations.front())),
                1.0, 0.02);
}

TEST(Response, GivesReasonsWithTheNumbers) {
    const auto says = [](const Reading& handled) {
        const Diagnosis diagnosis =
            diagnose(rules(), {.coil_model = "six-rod-42", .readings = too_much_and(handled)});
        const auto reason = std::ranges::find(diagnosis.reasons, describe(handled), &Reason::reading);
        return reason == diagnosis.reasons.end() ? std::string() : reason->says;
    };
    EXPECT_THAT(
        says(resistance(7600.0, Handling::pressed)),
        HasSubstr("read 7.600 kΩ, at rest read 7.000 kΩ: it moved by +8.6 %: “A partial break or a bad "
                  "joint” does so 50 times in 100, “A sound coil” 1"));
    EXPECT_THAT(
        says(resistance(7275.1, Handling::warmed)),
        HasSubstr("read 7.275 kΩ, at rest read 7.000 kΩ: +3.9 %, as copper that is 10 K warmer (0.39 % a "
                  "kelvin)"));
}

// A coil of 6.2 kΩ with a 250 kΩ control: 6.2 ‖ 250 = 6.050 kΩ (Ohm's law).
TEST(Response, OfControlsThatAreLiftedOffShowsTheCoilAlone) {
    const std::vector<Reading> wired{
        {.quantity = Quantity::temperature, .value = 20.0, .standard_uncertainty = 0.5},
        {.quantity = Quantity::dc_resistance, .value = 6050.0, .standard_uncertainty = 3.0},
        {.quantity = Quantity::inductance,
         .circuit = Circuit::series,
         .frequency_hz = 1000.0,
         .value = 2.2,
         .standard_uncertainty = 0.01}};
    const auto with = [&](double ohm) {
        auto readings = wired;
        readings.push_back({.quantity = Quantity::dc_resistance,
                            .value = ohm,
                            .standard_uncertainty = 3.0,
                            .handling = Handling::lifted});
        return readings;
    };
    const double before = probability_of("still-wired", wired);
    EXPECT_GT(probability_of("still-wired", with(6200.0)), 0.95);
    EXPECT_LT(probability_of("still-wired", with(6051.0)), 0.2 * before);
}

// Two faults, even odds; one moves half the time, the other one time in a hundred. Entropy by hand: H(0.255)
// − ½ H(0.5) − ½ H(0.01) = 0.8190 − 0.5 − 0.0404 = 0.2787 bits, where H(p) = −p log2 p − (1 − p) log2(1 − p).
TEST(Response, TellsWhatTheEntropiesSay) {
    const Fault loose{.id = "loose", .response = {.warmed = 0.5, .pressed = 0.5}};
    const Fault firm{.id = "firm", .response = {.warmed = 0.01, .pressed = 0.01}};
    const Posterior posterior{{.fault = &loose, .probability = 0.5}, {.fault = &firm, .probability = 0.5}};
    EXPECT_NEAR(response_gain_bits(posterior, Handling::pressed, resistance(6200.0), 9.0), 0.2787, 1e-4);
}

TEST(NextReading, OffersToHandleTheCoilOnceItWasReadAtRest) {
    const auto next = [](const std::vector<Reading>& readings) {
        return diagnose(rules(), {.coil_model = "six-rod-42", .readings = readings}).next;
    };
    const auto is = [](Handling handling) {
        return Field(&NextReading::question, AllOf(Field(&Reading::quantity, Quantity::dc_resistance),
                                                   Field(&Reading::handling, handling)));
    };
    for (const Handling handling : {Handling::pressed, Handling::warmed}) {
        EXPECT_THAT(next(too_much), Contains(is(handling)));
        EXPECT_THAT(next({too_much.front()}), ::testing::Not(Contains(is(handling))));
        EXPECT_THAT(next(too_much_and(resistance(7000.0, handling))), ::testing::Not(Contains(is(handling))));
    }
    // A resistance somewhat low, as shorted turns or a control give it.
    EXPECT_THAT(next({too_much.front(), resistance(5600.0)}), Contains(is(Handling::lifted)));
}

// A fault that nobody here knows is proposed and weighed by its own file alone.
TEST(NextReading, WeighsAFaultOfAUsersOwnByItsFile) {
    Rules own = rules();
    Fault crumbling = *own.fault("wrong-wire");
    crumbling.id = "crumbling-enamel";
    crumbling.title = "The enamel crumbles";
    crumbling.response = {.warmed = 0.9, .pressed = 0.01};
    own.faults.push_back(crumbling);
    const Diagnosis before = diagnose(own, {.coil_model = "six-rod-42", .readings = too_much});
    const Diagnosis after = diagnose(
        own, {.coil_model = "six-rod-42", .readings = too_much_and(resistance(6100.0, Handling::warmed))});
    EXPECT_EQ(after.verdict.fault, "crumbling-enamel");
    EXPECT_NE(before.verdict.fault, "crumbling-enamel");
}

TEST(MagnetPole, SpeaksForALeadOrAMagnetThatIsTurned) {
    const Reading reversed{.quantity = Quantity::magnet_pole, .polarity = Polarity::reversed};
    const double before = probability_of("reversed-polarity", too_much);
    // 0.48 in its file to the usual 0.02.
    const double odds_before = before / (1.0 - before);
    const double after = probability_of("reversed-polarity", too_much_and(reversed));
    EXPECT_NEAR(after / (1.0 - after) / odds_before, 24.0, 1e-6);
}

} // namespace
} // namespace coilward
