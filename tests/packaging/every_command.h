#pragma once

#include "history/child_process.h"
#include "history/temporary_folder.h"
#include "packaging/described_command.h"

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace coilward::testing {

inline const DescribedCommand& program() {
    static const DescribedCommand described = described_program();
    return described;
}

/// Every command that the program has, found from the program itself.
inline auto all_commands() {
    return ::testing::ValuesIn(with_all_below(program()));
}

inline std::string name_of_command(const ::testing::TestParamInfo<const DescribedCommand*>& info) {
    std::string name = info.param->full_name("_");
    std::ranges::replace(name, '-', '_');
    return name;
}

inline std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        lines.push_back(line);
    return lines;
}

/// Of its options, words and commands.
inline std::vector<std::string> names_in(const DescribedCommand& command) {
    std::vector<std::string> names;
    for (const auto* options : {&command.options, &command.words})
        for (const DescribedOption& option : *options)
            names.insert(names.end(), option.names.begin(), option.names.end());
    for (const DescribedCommand& below : command.commands)
        names.push_back(below.name());
    return names;
}

/// What a command requires, with values that name nothing.
inline std::vector<std::string> words_that_lead_nowhere(const DescribedCommand& command) {
    std::vector<std::string> words;
    for (const DescribedOption& option : command.options)
        if (option.required) words.insert(words.end(), {option.names.back(), "/no/such-thing"});
    for (const DescribedOption& word : command.words)
        if (word.required) words.push_back("/no/such-thing");
    return words;
}

/// "coilward: what and where; what to do": one line whose end tells what to do.
inline void expect_one_line_with_a_remedy(const std::string& said) {
    EXPECT_TRUE(said.starts_with("coilward: ")) << said;
    EXPECT_EQ(std::ranges::count(said, '\n'), 1) << said;
    const auto remedy = said.rfind("; ");
    EXPECT_NE(remedy, std::string::npos) << "nothing says what to do: " << said;
}

/// A command of the built program, run on a history of its own in an empty home.
struct EveryCommand : ::testing::TestWithParam<const DescribedCommand*> {
    TemporaryFolder folder;

    static const DescribedCommand& command() { return *GetParam(); }

    ProgramEnd coilward(std::vector<std::string> words) const {
        std::vector<std::string> all{"HOME=" + folder.path().string(),
                                     "XDG_CONFIG_HOME=", "XDG_DATA_HOME=", COILWARD_PROGRAM};
        all.insert(all.end(), command().path.begin() + 1, command().path.end());
        all.insert(all.end(), words.begin(), words.end());
        return run_program("/usr/bin/env", std::move(all));
    }
};

} // namespace coilward::testing
