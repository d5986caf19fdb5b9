#include "history/finished_file.h"
#include "history/history.h"
#include "refusal.h"
#include "temporary_folder.h"

#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using ::testing::HasSubstr;

struct FinishedFile : ::testing::Test {
    testing::TemporaryFolder folder;
    std::filesystem::path whole = std::filesystem::path(folder.path()) / "copy.unfinished";
    std::filesystem::path name = std::filesystem::path(folder.path()) / "copy";

    FinishedFile() { std::ofstream(whole) << "all of it"; }
};

TEST_F(FinishedFile, HasItsName) {
    give_name(whole, name);
    EXPECT_TRUE(std::filesystem::exists(name));
    EXPECT_FALSE(std::filesystem::exists(whole));
}

TEST_F(FinishedFile, IsLeftWhereItIsIfItCannotHaveIt) {
    std::filesystem::create_directories(name / "something in it");
    const auto said = testing::refusal<HistoryError>([&] { give_name(whole, name); });
    EXPECT_THAT(said, HasSubstr(name.string() + ": cannot have this name ("));
    EXPECT_THAT(said, HasSubstr("all of it is in " + whole.string()));
    EXPECT_TRUE(std::filesystem::exists(whole));
}

} // namespace
} // namespace coilward
