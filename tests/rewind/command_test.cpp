#include "history/child_process.h"
#include "history/examples.h"
#include "history/temporary_folder.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

/// The program's commands `plan` and `confirm`, with the rules that come with it.
namespace coilward {
namespace {

using ::testing::HasSubstr;
using testing::ProgramEnd;

struct RewindCommand : ::testing::Test {
    testing::TemporaryFolder folder;

    ProgramEnd coilward(std::vector<std::string> words) const {
        words.insert(words.end(), {"--data", folder.path(), "--rules", COILWARD_SOURCE_DIR "/rules"});
        return testing::run_program(COILWARD_PROGRAM, std::move(words));
    }

    ProgramEnd plan(const std::vector<std::string>& more) const {
        std::vector<std::string> words{"plan",      "--core",   "58mm,6mm", "--flange",
                                       "70mm,16mm", "--height", "9.8mm"};
        words.insert(words.end(), more.begin(), more.end());
        return coilward(words);
    }

    void keep_a_rewound_coil() const {
        History history(folder.path());
        const auto pickup = history.add_pickup(testing::neck());
        auto visit = testing::visit_of(pickup, 10, "2026-03-02T10:00:00Z");
        visit.rewound = true;
        history.begin_visit(visit);
        history.append_reading(testing::stored(visit, 20, testing::dc_resistance(6112.0)));
        history.append_reading(testing::stored(
            visit, 21, {.quantity = Quantity::temperature, .value = 21.0, .standard_uncertainty = 0.5}));
    }
};

ProgramEnd words_wrong(const std::string& command, const std::string& what) {
    return {
        .exit_code = 2, .out = "", .err = "coilward: " + what + "; see coilward " + command + " --help\n"};
}

/// The layered racetrack of plan_test.cpp by the words of the command.
TEST_F(RewindCommand, PlansALayeredRacetrack) {
    const auto end = plan({"--awg", "42", "--overall-diameter", "70u±0.5u", "--packing", "1±0.01",
                           "--dc-resistance", "5100.765", "--tape", "0.2mm"});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    EXPECT_THAT(end.out, HasSubstr("Set the counter to 7000 turns\n"));
    EXPECT_THAT(end.out, HasSubstr("layers, were they neat        50.0 ± "));
    const auto json = plan({"--awg", "42", "--turns", "7000", "--json"});
    EXPECT_THAT(json.out, HasSubstr("{\"turns\":7000.0,\"target\":{\"quantity\":\"turns\""));
}

TEST_F(RewindCommand, SaysWhatIsWrongWithThePlansWords) {
    EXPECT_EQ(plan({"--awg", "42", "--turns", "many"}),
              words_wrong("plan", "--turns: \"many\" is no number"));
    EXPECT_EQ(
        plan({"--awg", "20", "--turns", "7000"}),
        words_wrong("plan", "--awg: the limits of 20 AWG are not known here; give a gauge from 36 to 46"));
    EXPECT_EQ(plan({"--awg", "42", "--turns", "7000", "--ohm-per-metre", "5.41"}),
              words_wrong("plan", "--ohm-per-metre: \"5.41\" has no uncertainty; write it as 5.41±0.02"));
    EXPECT_EQ(
        plan({"--awg", "42", "--turns", "7000", "--model", "no-such-model"}),
        words_wrong("plan", "--model: there is no coil model \"no-such-model\"; coilward models lists them"));
}

TEST_F(RewindCommand, SaysWhatIsWrongWithTheWordsOfAModel) {
    const auto model = [&](const std::vector<std::string>& more) {
        std::vector<std::string> words{"model", "new", "old", "--awg", "42"};
        words.insert(words.end(), more.begin(), more.end());
        return coilward(words);
    };
    for (const char* turns : {"7500..", "..8000", "-10..8000"})
        EXPECT_EQ(model({fmt::format("--turns={}", turns)}),
                  words_wrong("model new", fmt::format("--turns: \"{}\" is open or not above 0; write both "
                                                       "limits, such as 7500..8100",
                                                       turns)));
    EXPECT_EQ(model({"--dc-resistance", "6.1k", "--temperature=-300"}),
              words_wrong("model new", "--temperature: no thermometer shows \"-300\"; give degrees Celsius"));
}

TEST_F(RewindCommand, ConfirmsAgainstAnOrder) {
    keep_a_rewound_coil();
    const auto end =
        coilward({"confirm", "neck", "--limit", "dc_resistance=5.9k..6.4k", "--tested-by", "A. Nonymous"});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    EXPECT_THAT(end.out, HasSubstr("Pickup 1: Neck, red guitar: MEASURE BETTER\n"));
    // 6112 / 1.00393 = 6088.1 Ω
    EXPECT_THAT(end.out, HasSubstr("DC resistance                 6.088 ± 0.015 kΩ    5.900 to 6.400 kΩ"));
    EXPECT_THAT(end.out, HasSubstr("Tested by A. Nonymous"));
    const auto page = coilward({"confirm", "neck", "--html", "--remarks", "<b>"});
    EXPECT_THAT(page.out, HasSubstr("<!DOCTYPE html>"));
    EXPECT_THAT(page.out, HasSubstr("&lt;b&gt;"));
    EXPECT_THAT(page.out, HasSubstr("<span>Signature</span>"));
}

TEST_F(RewindCommand, SaysWhatIsWrongWithTheWordsOfAConfirmation) {
    keep_a_rewound_coil();
    EXPECT_EQ(
        coilward({"confirm", "neck", "--limit", "ohm=3"}),
        words_wrong(
            "confirm",
            "--limit: \"ohm=3\" is no limit; write QUANTITY=LOW..HIGH, such as dc_resistance=5.9k..6.4k "
            "or inductance@1kHz=2.2..2.5"));
    EXPECT_EQ(coilward({"confirm", "neck", "--limit", "dc_resistance=7k..6k"}),
              words_wrong("confirm", "--limit: \"7k..6k\" holds nothing; give the lower limit first"));
    EXPECT_EQ(
        coilward({"confirm", "neck", "--as-it-was", "5"}),
        words_wrong(
            "confirm",
            "--as-it-was: Neck, red guitar has no earlier visit that judged this coil sound and read its "
            "DC resistance; give --limit, or leave it to the coil model"));
}

} // namespace
} // namespace coilward
