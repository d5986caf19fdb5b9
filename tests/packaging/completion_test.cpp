#include "packaging/completion.h"
#include "packaging/every_command.h"

#include <fstream>
#include <set>

#include <gmock/gmock.h>

namespace coilward {
namespace {

using testing::EveryCommand;
using ::testing::HasSubstr;
using ::testing::UnorderedElementsAreArray;

/// What bash offers after these words, the last of which is being typed.
std::vector<std::string> offered_by_bash(std::vector<std::string> words,
                                         const std::filesystem::path& folder) {
    const auto script = folder / "coilward.bash";
    std::ofstream(script) << bash_completion(testing::program());
    // compopt works only while a person types
    std::vector<std::string> all{
        "-c",
        "compopt() { :; }; . \"$0\" && COMP_WORDS=(\"$@\") COMP_CWORD=$(($# - 1)) && "
        "_coilward && printf '%s\\n' \"${COMPREPLY[@]}\"",
        script.string()};
    all.insert(all.end(), words.begin(), words.end());
    const auto end = testing::run_program("/bin/bash", all);
    EXPECT_EQ(end.err, "");
    auto lines = testing::lines_of(end.out);
    if (lines == std::vector<std::string>{""}) lines.clear();
    return lines;
}

std::vector<std::string> with(std::vector<std::string> words, const std::string& word) {
    words.push_back(word);
    return words;
}

/// Its own options and those of every command.
std::set<std::string> options_after(const DescribedCommand& command) {
    std::set<std::string> names;
    for (const auto* each : {&command, &testing::program()})
        for (const DescribedOption& option : each->options)
            names.insert(option.names.begin(), option.names.end());
    return names;
}

TEST_P(EveryCommand, BashOffersItsOptions) {
    const auto offered = offered_by_bash(with(command().path, "-"), folder.path());
    EXPECT_EQ(std::set(offered.begin(), offered.end()), options_after(command()));
}

TEST_P(EveryCommand, BashOffersTheCommandsBelow) {
    if (command().commands.empty()) return;
    std::vector<std::string> names;
    for (const DescribedCommand& below : command().commands)
        names.push_back(below.name());
    EXPECT_THAT(offered_by_bash(with(command().path, ""), folder.path()), UnorderedElementsAreArray(names));
}

TEST_P(EveryCommand, BashOffersWhatAnOptionTakes) {
    for (const DescribedOption& option : command().options) {
        if (kind_of_value(option.value) != ValueKind::choice) continue;
        EXPECT_EQ(offered_by_bash(with(with(command().path, option.names.back()), ""), folder.path()),
                  choices_in(option.value));
    }
}

/// The part of a text from one mark to the next of another.
std::string between(const std::string& text, const std::string& from, const std::string& to) {
    const auto start = text.find(from);
    if (start == std::string::npos) return "";
    return text.substr(start, text.find(to, start) - start);
}

TEST_P(EveryCommand, ZshIsToldOfItsOptionsAndCommands) {
    const std::string all = zsh_completion(testing::program());
    std::string name = "_" + command().full_name("_");
    std::ranges::replace(name, '-', '_');
    const std::string function = between(all, "\n" + name + "() {", "\n}\n");
    for (const DescribedOption& option : command().options)
        for (const std::string& each : option.names)
            EXPECT_THAT(function, HasSubstr(each + "["));
    for (const DescribedCommand& below : command().commands)
        EXPECT_THAT(function, HasSubstr("        " + below.name() + ") "));
}

TEST_P(EveryCommand, FishIsToldOfItsOptionsAndCommands) {
    const std::string all = fish_completion(testing::program());
    std::string rows;
    for (const std::string& line : testing::lines_of(all))
        if (line.find("'__coilward_at " + command().full_name() + "'") != std::string::npos)
            rows += line + "\n";
    for (const DescribedCommand& below : command().commands)
        EXPECT_THAT(rows, HasSubstr(" -f -a " + below.name() + " "));
    if (command().path.size() == 1) return; // its options are those of every command
    for (const DescribedOption& option : command().options)
        EXPECT_THAT(rows, HasSubstr(" -l " + option.names.back().substr(2) + " "));
}

} // namespace
} // namespace coilward
