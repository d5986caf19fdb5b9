#include "child_process.h"
#include "examples.h"
#include "temporary_folder.h"

#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

/// The program's commands `pickup` and `history`, with the rules that come with it.
namespace coilward {
namespace {

using ::testing::HasSubstr;
using testing::ProgramEnd;

struct Command : ::testing::Test {
    testing::TemporaryFolder folder;

    ProgramEnd coilward(std::vector<std::string> words) const {
        words.insert(words.end(), {"--data", folder.path(), "--rules", COILWARD_SOURCE_DIR "/rules"});
        return testing::run_program(COILWARD_PROGRAM, std::move(words));
    }
};

ProgramEnd done(const std::string& out) {
    return {.exit_code = 0, .out = out, .err = ""};
}

ProgramEnd words_wrong(const std::string& command, const std::string& what) {
    return {
        .exit_code = 2, .out = "", .err = "coilward: " + what + "; see coilward " + command + " --help\n"};
}

TEST_F(Command, KeepsListsAndFindsPickups) {
    EXPECT_EQ(coilward({"pickup", "list"}),
              done("No pickups yet; coilward pickup add --name NAME keeps the first.\n"));
    EXPECT_EQ(coilward({"pickup", "add", "--name", "Neck, red guitar", "--owner", "A. Nonymous", "--model",
                        "six-rod-42"}),
              done("Pickup 1: Neck, red guitar\n"));
    EXPECT_EQ(coilward({"pickup", "add", "--name", "Bridge", "--type", "dual-coil-series", "--coil",
                        "slug=slug-coil-42", "--coil", "screw=screw-coil-42"}),
              done("Pickup 2: Bridge\n"));
    EXPECT_EQ(coilward({"pickup", "list"}),
              done("  No.  Name                           Owner              Instrument             Type\n"
                   "    1  Neck, red guitar               A. Nonymous\n"
                   "    2  Bridge                                                                   "
                   "dual-coil-series\n"));
    EXPECT_EQ(coilward({"pickup", "list", "--find", "nonym"}),
              done("  No.  Name                           Owner              Instrument             Type\n"
                   "    1  Neck, red guitar               A. Nonymous\n"));
    EXPECT_EQ(coilward({"pickup", "list", "--find", "zither"}),
              done("No pickup has \"zither\" in its name, owner, instrument, type, coils or notes.\n"));
    EXPECT_EQ(coilward({"history", "bridge"}), done("Pickup 2: Bridge\n  no visits yet\n"));

    const History history(folder.path());
    EXPECT_THAT(history.pickup(1)->coils, ::testing::ElementsAre(PickupCoil{"", "six-rod-42"}));
    EXPECT_THAT(history.pickup(2)->coils, ::testing::ElementsAre(PickupCoil{"slug", "slug-coil-42"},
                                                                 PickupCoil{"screw", "screw-coil-42"}));
    EXPECT_THAT(coilward({"pickup", "list", "--json"}).out, HasSubstr(text_of(history.pickup(1)->id)));
    EXPECT_THAT(coilward({"pickup", "show", "1", "--json"}).out, HasSubstr(text_of(history.pickup(1)->id)));
    EXPECT_THAT(coilward({"history", "1", "--json"}).out, HasSubstr("\"visits\":[]"));
}

TEST_F(Command, EditsAPickupAndKeepsWhatItWas) {
    coilward({"pickup", "add", "--name", "Neck", "--owner", "A. Nonymous", "--model", "six-rod-42"});
    EXPECT_EQ(coilward({"pickup", "edit", "neck", "--owner", "B. Nonymous", "--note", ""}),
              done("Pickup 1: 1 value changed\n"));
    const auto shown = coilward({"pickup", "show", "1"});
    EXPECT_EQ(shown.exit_code, 0);
    EXPECT_THAT(shown.out, HasSubstr("  owner      B. Nonymous\n"));
    EXPECT_THAT(shown.out, HasSubstr(": owner was \"A. Nonymous\"\n"));
    EXPECT_EQ(coilward({"pickup", "edit", "neck", "--instrument", "red guitar", "--note", "weak"}),
              done("Pickup 1: 2 values changed\n"));
}

TEST_F(Command, ShowsTheHistory) {
    {
        History history(folder.path());
        const auto pickup = history.add_pickup(testing::neck());
        const auto visit = testing::visit_of(pickup, 10, "2026-03-02T10:00:00Z");
        history.begin_visit(visit);
        history.append_reading(testing::stored(visit, 20, testing::dc_resistance(6112.0)));
    }
    EXPECT_EQ(coilward({"history", "neck"}), done("Pickup 1: Neck, red guitar\n"
                                                  "\n"
                                                  "2026-03-02 10:00 UTC  as received\n"
                                                  "  10:00:00            DC resistance                       "
                                                  "     6.112 ± 0.009 kΩ         by hand\n"));
}

TEST_F(Command, SaysWhatIsWrongWithTheWords) {
    const std::string file = folder.file();
    EXPECT_EQ(coilward({"history", "neck"}),
              words_wrong("history", "pickup \"neck\": " + file +
                                         " has no such number or name; coilward pickup list shows them"));
    coilward({"pickup", "add", "--name", "Neck"});
    coilward({"pickup", "add", "--name", "NECK"});
    EXPECT_EQ(coilward({"pickup", "show", "neck"}),
              words_wrong("pickup show", "pickup \"neck\" may be any of 1 (Neck), 2 (NECK); say its number"));
    EXPECT_EQ(coilward({"pickup", "edit", "1"}),
              words_wrong("pickup edit", "nothing to change; say for example --owner NAME"));
    EXPECT_EQ(coilward({"pickup", "add", "--name", "-"}),
              words_wrong("pickup add", "--name: \"-\" has no letter or digit by which to ask for it"));

    const auto add = [&](std::vector<std::string> words) {
        words.insert(words.begin(), {"pickup", "add", "--name", "Bridge"});
        return coilward(words);
    };
    EXPECT_EQ(add({"--model", "no-such-model"}),
              words_wrong("pickup add",
                          "--model: there is no coil model \"no-such-model\"; coilward models lists them"));
    EXPECT_EQ(add({"--type", "no-such-type"}),
              words_wrong("pickup add",
                          "--type: there is no pickup type \"no-such-type\"; coilward models lists them"));
    EXPECT_EQ(add({"--coil", "slug-coil-42"}),
              words_wrong("pickup add",
                          "--coil: \"slug-coil-42\" is no NAME=MODEL; write it as slug=slug-coil-42"));
    EXPECT_EQ(
        add({"--coil", "a=slug-coil-42", "--coil", "b=screw-coil-42"}),
        words_wrong("pickup add", "--coil: a pickup of several coils needs its type too; say --type ID"));
    EXPECT_EQ(
        add({"--type", "dual-coil-series", "--coil", "slug=slug-coil-42"}),
        words_wrong(
            "pickup add",
            "--coil: a pickup of the type dual-coil-series has the coils slug, screw; say --coil NAME=MODEL "
            "once for each of them"));
    EXPECT_EQ(History(folder.path()).pickups().size(), 2U) << "nothing was kept of what was refused";
}

TEST_F(Command, SaysWhenTheHistoryCannotBeOpened) {
    std::ofstream(folder.file()) << "pickup;ohm\nneck;6112\n";
    EXPECT_EQ(coilward({"pickup", "list"}),
              (ProgramEnd{
                  .exit_code = 1,
                  .out = "",
                  .err = "coilward: " + folder.file().string() +
                         ": this file is no history; move it away, or choose another folder with --data DIR "
                         "(nothing was changed)\n"}));
}

} // namespace
} // namespace coilward
