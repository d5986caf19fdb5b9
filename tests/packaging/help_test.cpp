#include "cli/help_page.h"
#include "cli/wrapped_text.h"
#include "packaging/every_command.h"

#include <gmock/gmock.h>

namespace coilward {
namespace {

using testing::EveryCommand;
using ::testing::HasSubstr;

TEST_P(EveryCommand, HelpFitsATerminalOf100Columns) {
    const auto end = coilward({"--help"});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    EXPECT_EQ(end.err, "");
    for (const std::string& line : testing::lines_of(end.out))
        EXPECT_LE(columns_of(line), 100U) << line;
}

TEST_P(EveryCommand, HelpShowsAnExampleOfThatVeryCommand) {
    const std::string help = coilward({"--help"}).out;
    const auto example = help.find("\nExample");
    ASSERT_NE(example, std::string::npos) << help;
    EXPECT_THAT(help.substr(example), HasSubstr("\n  " + command().full_name()));
}

TEST_P(EveryCommand, HelpTellsOfAllItsOptionsWordsAndCommands) {
    const std::string help = coilward({"--help"}).out;
    for (const std::string& name : testing::names_in(command()))
        EXPECT_THAT(help, HasSubstr(name));
}

TEST_P(EveryCommand, SaysOfAnOptionThatItHasNotWhatToDo) {
    const auto end = coilward({"--no-such-option"});
    EXPECT_EQ(end.exit_code, 2);
    EXPECT_EQ(end.out, "");
    testing::expect_one_line_with_a_remedy(end.err);
    EXPECT_THAT(end.err, HasSubstr("see coilward"));
}

// Everything that the command cannot do without is given, and none of it is there.
TEST_P(EveryCommand, SaysOfThingsThatAreNotThereWhatToDo) {
    const auto needed = testing::words_that_lead_nowhere(command());
    if (needed.empty() || command().full_name() == "coilward pickup add") return; // any text is a name
    const auto end = coilward(needed);
    EXPECT_NE(end.exit_code, 0) << end.out;
    testing::expect_one_line_with_a_remedy(end.err);
}

INSTANTIATE_TEST_SUITE_P(Program, EveryCommand, testing::all_commands(), testing::name_of_command);

TEST(Wrapped, BreaksBetweenWordsAndCountsCharacters) {
    EXPECT_EQ(wrapped("one two three", 7), (std::vector<std::string>{"one two", "three"}));
    EXPECT_EQ(wrapped("±±± ±±±", 7), (std::vector<std::string>{"±±± ±±±"}));
    EXPECT_EQ(wrapped("a incomprehensible b", 6), (std::vector<std::string>{"a", "incomprehensible", "b"}));
    EXPECT_TRUE(wrapped("", 10).empty());
}

} // namespace
} // namespace coilward
