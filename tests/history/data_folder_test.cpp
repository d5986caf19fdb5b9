#include "history/data_folder.h"
#include "history/history.h"
#include "refusal.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

// XDG Base Directory Specification 0.8: unset or empty means $HOME/.local/share; a relative path is to be
// ignored.
TEST(DataFolder, FollowsTheSpecification) {
    EXPECT_EQ(default_data_folder("/srv/data", "/home/someone"), "/srv/data/coilward");
    EXPECT_EQ(default_data_folder(nullptr, "/home/someone"), "/home/someone/.local/share/coilward");
    EXPECT_EQ(default_data_folder("", "/home/someone"), "/home/someone/.local/share/coilward");
    EXPECT_EQ(default_data_folder("data", "/home/someone"), "/home/someone/.local/share/coilward");
}

TEST(DataFolder, AsksWhereNothingTells) {
    const std::string expected =
        "neither XDG_DATA_HOME nor HOME says where the history lives; choose a folder with "
        "--data DIR";
    EXPECT_EQ(testing::refusal<HistoryError>([] { default_data_folder(nullptr, nullptr); }), expected);
    EXPECT_EQ(testing::refusal<HistoryError>([] { default_data_folder("relative", ""); }), expected);
}

} // namespace
} // namespace coilward
