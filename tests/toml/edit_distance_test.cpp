#include "toml/edit_distance.h"

#include <array>

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// The usual textbook pairs (e.g. Wagner and Fischer's problem as taught): kitten/sitting 3,
/// saturday/sunday 3.
TEST(EditDistance, IsThatOfTheTextbook) {
    EXPECT_EQ(edit_distance("kitten", "sitting"), 3U);
    EXPECT_EQ(edit_distance("saturday", "sunday"), 3U);
    EXPECT_EQ(edit_distance("", "abc"), 3U);
    EXPECT_EQ(edit_distance("abc", ""), 3U);
    EXPECT_EQ(edit_distance("abc", "abc"), 0U);
}

TEST(NearestWord, IsNamedOnlyWhereItWasProbablyMeant) {
    constexpr std::array<std::string_view, 3> words{"inductance", "title", "id"};
    EXPECT_EQ(nearest("inductence", words), "inductance");
    EXPECT_EQ(nearest("titel", words), "title");
    EXPECT_EQ(nearest("resistance", words), std::nullopt);
    EXPECT_EQ(nearest("x", words), std::nullopt);
    EXPECT_EQ(nearest("x", {}), std::nullopt);
}

} // namespace
} // namespace coilward
