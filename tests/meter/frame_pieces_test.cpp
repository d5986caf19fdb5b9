#include "meter/frame_pieces.h"

#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

TEST(FramePieces, ReadPlainNumbersAndNothingElse) {
    struct Row {
        const char* text;
        long long counts;
        int decimals;
    };

    for (const Row& row :
         {Row{"0470", 470, 0}, Row{"-12.5", -125, 1}, Row{"4.1234", 41234, 4}, Row{"0.0001", 1, 4}}) {
        const auto number = plain_number(row.text);
        ASSERT_TRUE(number.has_value()) << row.text;
        EXPECT_EQ(number->counts, row.counts) << row.text;
        EXPECT_EQ(number->decimals, row.decimals) << row.text;
    }
    for (const char* text : {"", "-", ".", "12.", "1.2.3", "1-2", "--1", "+1", "1 2", " 1", "1e3", "OL", ".5",
                             "-.5", "12345678901234567"})
        EXPECT_FALSE(plain_number(text).has_value()) << text;
    EXPECT_EQ(plain_number(".0045", true)->decimals, 4);
    EXPECT_EQ(plain_number("-.12", true)->counts, -12);
    EXPECT_FALSE(plain_number(".", true).has_value());
}

/// The compiler's own reading of the decimal text is the nearest double to it.
TEST(FramePieces, ScaleCountsToTheNearestNumber) {
    EXPECT_EQ(scaled(1123, -13), 1.123e-10);
    EXPECT_EQ(scaled(735, 1), 7350.0);
    EXPECT_EQ(scaled(-123, -4), -0.0123);
    EXPECT_EQ(scaled(41234, -4), 4.1234);
    EXPECT_EQ(scaled(22000, -12), 22e-9);
}

struct Piece {
    std::string bytes;
    std::size_t used;
    Verdict verdict;
};

TEST(FramePieces, FindFramesBehindTheirStart) {
    constexpr StartedFrame shape{.length = 5, .start = '{', .end = '}'};
    Frame frame;
    EXPECT_FALSE(rejected("{abc}", shape, frame).has_value());
    EXPECT_FALSE(rejected("{abc}{", shape, frame).has_value());
    for (const Piece& row : std::vector<Piece>{{"", 0, Verdict::no_start},
                                               {"{ab", 0, Verdict::no_start},
                                               {"xy{abc}", 2, Verdict::no_start},
                                               {"{ab{abc}", 3, Verdict::too_short},
                                               {"{a\x01"
                                                "c}",
                                                2, Verdict::bad_structure},
                                               {"{abcd}", 4, Verdict::bad_structure}}) {
        const auto used = rejected(row.bytes, shape, frame);
        ASSERT_TRUE(used.has_value()) << row.bytes;
        EXPECT_EQ(*used, row.used) << row.bytes;
        if (row.used == 0) continue;
        EXPECT_EQ(name(frame.verdict), name(row.verdict)) << row.bytes;
    }
}

/// A line that is too long is dropped whole: its last part looks like a line of the right length.
TEST(FramePieces, FindFramesBeforeTheirEnd) {
    constexpr EndedFrame shape{.body = 3, .end = "\r\n"};
    Frame frame;
    EXPECT_FALSE(rejected("abc\r\n", shape, frame).has_value());
    for (const Piece& row : std::vector<Piece>{{"", 0, Verdict::no_start},
                                               {"abc", 0, Verdict::no_start},
                                               {"abc\r", 0, Verdict::no_start},
                                               {"\r\nabc\r\n", 2, Verdict::no_start},
                                               {"ab\r\n", 2, Verdict::too_short},
                                               {"ab\x80\r\n", 2, Verdict::bad_structure},
                                               {"abcd\r\n", 4, Verdict::bad_structure},
                                               {"abc\rabc\r\n", 4, Verdict::bad_structure},
                                               {"abcabcabcabc", 10, Verdict::bad_structure}}) {
        const auto used = rejected(row.bytes, shape, frame);
        ASSERT_TRUE(used.has_value()) << row.bytes;
        EXPECT_EQ(*used, row.used) << row.bytes;
        if (row.used == 0) continue;
        EXPECT_EQ(name(frame.verdict), name(row.verdict)) << row.bytes;
    }
}

// '0' -> B0, '1' -> 31, CR -> 0D, LF -> 8A: odd parity in bit 7.
TEST(FramePieces, TakeSevenBitsOrOddParityButNotBoth) {
    EXPECT_TRUE(has_seven_bits_or_odd_parity("01\r\n"));
    EXPECT_TRUE(has_seven_bits_or_odd_parity("\xB0"
                                             "1\r\x8A"));
    EXPECT_FALSE(has_seven_bits_or_odd_parity("\xB0"
                                              "1\r\n"));
    EXPECT_FALSE(has_seven_bits_or_odd_parity("\xB0\xB1\r\x8A"));
}

} // namespace
} // namespace coilward
