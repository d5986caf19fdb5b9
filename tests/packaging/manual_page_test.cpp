#include "packaging/every_command.h"
#include "packaging/manual_page.h"

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include <gmock/gmock.h>

namespace coilward {
namespace {

using testing::EveryCommand;
using ::testing::HasSubstr;
using testing::ProgramEnd;

std::string on_one_line(const std::string& text) {
    std::istringstream words(text);
    std::string line;
    for (std::string word; words >> word;)
        line += (line.empty() ? "" : " ") + word;
    return line;
}

/// The page as a reader sees it, on one endless line, by groff; it complains on standard error.
ProgramEnd read_page(const std::string& page, const std::filesystem::path& folder) {
    const auto file = folder / "page.1";
    std::ofstream(file) << page;
    auto end = testing::run_program(
        "/usr/bin/groff", {"-ww", "-man", "-Tutf8", "-Kutf8", "-P-cbou", "-rLL=20000n", "-rHY=0", file});
    end.out = on_one_line(end.out);
    return end;
}

TEST_P(EveryCommand, ManualPageTellsAllThatTheHelpTells) {
    if (!std::filesystem::exists("/usr/bin/groff")) GTEST_SKIP() << "groff (Debian: groff-base) is not here";
    const auto end = read_page(manual_page(command(), testing::program(), "0"), folder.path());
    EXPECT_EQ(end.err, "");
    EXPECT_THAT(end.out, HasSubstr(command().full_name("-") + " - " + command().meaning));
    for (const auto* options : {&command().options, &command().words})
        for (const DescribedOption& option : *options) {
            const std::string value = option.value.empty() ? "" : " " + option.value;
            EXPECT_THAT(end.out, HasSubstr(option.names.back() + value + " " + on_one_line(option.meaning)));
        }
    for (const DescribedCommand& below : command().commands)
        EXPECT_THAT(end.out, HasSubstr(below.full_name("-") + "(1) " + below.meaning));
    for (const std::string& line : testing::lines_of(command().footer))
        EXPECT_THAT(end.out, HasSubstr(line.starts_with("Example") ? "EXAMPLES" : on_one_line(line)));
}

} // namespace
} // namespace coilward
