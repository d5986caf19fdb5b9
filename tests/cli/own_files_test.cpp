#include "cli/own_files.h"
#include "history/child_process.h"
#include "history/temporary_folder.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <gmock/gmock.h>

namespace coilward {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing::ProgramEnd;
using testing::TemporaryFolder;
namespace fs = std::filesystem;

/// Where the program looks for drivers besides those that ship, as it says of one that is nowhere.
std::string own_drivers(const std::vector<std::string>& environment) {
    std::vector<std::string> words{"-u", "XDG_CONFIG_HOME", "-u", "HOME"};
    words.insert(words.end(), environment.begin(), environment.end());
    words.insert(words.end(), {COILWARD_PROGRAM, "watch", "--meter", "none", "--port", "/dev/null"});
    const auto said = testing::run_program("/usr/bin/env", words).err;
    const auto from = said.find(" or /");
    return from == std::string::npos ? "" : said.substr(from + 4, said.find(';') - from - 4);
}

// XDG Base Directory Specification 0.8, "Environment variables": $HOME/.config where the variable is not set
// or empty; a relative path is ignored.
TEST(OwnFiles, LieWhereTheSpecificationSays) {
    EXPECT_EQ(own_drivers({"XDG_CONFIG_HOME=/srv/config", "HOME=/home/x"}), "/srv/config/coilward/drivers");
    EXPECT_EQ(own_drivers({"HOME=/home/x"}), "/home/x/.config/coilward/drivers");
    EXPECT_EQ(own_drivers({"XDG_CONFIG_HOME=", "HOME=/home/x"}), "/home/x/.config/coilward/drivers");
    EXPECT_EQ(own_drivers({"XDG_CONFIG_HOME=config", "HOME=/home/x"}), "/home/x/.config/coilward/drivers");
    EXPECT_EQ(own_drivers({}), "");
    EXPECT_EQ(own_drivers({"XDG_CONFIG_HOME=relative", "HOME="}), "");
}

std::string text_of(const fs::path& file) {
    std::ifstream stream(file);
    return {std::istreambuf_iterator<char>(stream), {}};
}

std::string with(std::string text, const std::string& old, const std::string& now) {
    const auto at = text.find(old);
    EXPECT_NE(at, std::string::npos) << old;
    return text.replace(at, old.size(), now);
}

/// The program as a person starts it, who has files of their own.
struct OwnFilesOfAPerson : ::testing::Test {
    TemporaryFolder folder;

    ProgramEnd coilward(std::vector<std::string> words) const {
        words.insert(words.begin(),
                     {"HOME=/nowhere", "XDG_CONFIG_HOME=" + folder.path().string(), COILWARD_PROGRAM});
        return testing::run_program("/usr/bin/env", std::move(words));
    }

    void write(const std::string& name, const std::string& text) const {
        const fs::path file = folder.path() / "coilward" / name;
        fs::create_directories(file.parent_path());
        std::ofstream(file) << text;
    }

    static std::string shipped(const std::string& name) {
        return text_of(fs::path(COILWARD_SOURCE_DIR) / name);
    }
};

long lines_in(const std::string& text) {
    return std::ranges::count(text, '\n');
}

TEST_F(OwnFilesOfAPerson, TakeThePlaceOfThoseOfTheirName) {
    const std::string before = coilward({"models"}).out;
    write("rules/coils/six-rod-42.toml",
          with(shipped("rules/coils/six-rod-42.toml"), "title = \"", "title = \"As I wind it: "));
    const std::string after = coilward({"models"}).out;
    EXPECT_THAT(before, Not(HasSubstr("As I wind it")));
    EXPECT_THAT(after, HasSubstr("As I wind it"));
    EXPECT_EQ(lines_in(after), lines_in(before));
}

TEST_F(OwnFilesOfAPerson, AreAddedToThoseThatShip) {
    const std::string before = coilward({"models"}).out;
    write("rules/coils/my-coil.toml",
          with(shipped("rules/coils/six-rod-42.toml"), "\"six-rod-42\"", "\"my-coil\""));
    const std::string after = coilward({"models"}).out;
    EXPECT_THAT(after, HasSubstr("my-coil"));
    EXPECT_THAT(after, HasSubstr("six-rod-42"));
    EXPECT_EQ(lines_in(after), lines_in(before) + 1);
}

TEST_F(OwnFilesOfAPerson, HoldForDriversToo) {
    const std::string before = coilward({"ports", "--meters"}).out;
    write("drivers/dmm-scpi.toml", with(shipped("drivers/dmm-scpi.toml"), "title = \"", "title = \"Mine: "));
    write("drivers/my-meter.toml", with(shipped("drivers/dmm-scpi.toml"), "\"dmm-scpi\"", "\"my-meter\""));
    const std::string after = coilward({"ports", "--meters"}).out;
    EXPECT_THAT(before, Not(HasSubstr("Mine: ")));
    EXPECT_THAT(after, HasSubstr("Mine: "));
    EXPECT_THAT(after, HasSubstr("my-meter"));
    EXPECT_THAT(after, HasSubstr("lcr-fetch-ab"));
}

TEST_F(OwnFilesOfAPerson, AreNotReadWhereAFolderIsNamed) {
    write("rules/coils/six-rod-42.toml", "this is no rule");
    write("drivers/dmm-scpi.toml", "nor is this");
    EXPECT_EQ(coilward({"models", "--rules", COILWARD_SOURCE_DIR "/rules"}).exit_code, 0);
    EXPECT_EQ(coilward({"ports", "--meters", "--drivers", COILWARD_SOURCE_DIR "/drivers"}).exit_code, 0);
}

TEST_F(OwnFilesOfAPerson, AreComplainedOfByName) {
    write("rules/coils/six-rod-42.toml", "this is no rule");
    const auto end = coilward({"models"});
    EXPECT_EQ(end.exit_code, 3);
    EXPECT_THAT(end.err,
                HasSubstr((folder.path() / "coilward/rules/coils/six-rod-42.toml").string() + ":1: "));
}

TEST_F(OwnFilesOfAPerson, AreCheckedWithThoseThatShip) {
    write("rules/coils/my-coil.toml",
          with(shipped("rules/coils/six-rod-42.toml"), "\"six-rod-42\"", "\"my-coil\""));
    const std::string own = (folder.path() / "coilward/rules").string();
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"check-rules"}, std::vector<std::string>{"check-rules", own}}) {
        const auto end = coilward(words);
        EXPECT_EQ(end.exit_code, 0) << end.out << end.err;
        EXPECT_THAT(end.out, HasSubstr("rules with " + own + " laid over it: "));
    }
}

} // namespace
} // namespace coilward
