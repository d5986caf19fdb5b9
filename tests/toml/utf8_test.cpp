#include "toml/utf8.h"

#include <string>

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct Sequence {
    std::string bytes;
    std::optional<std::size_t> first_bad;
};

/// The Unicode Standard, table 3-7 (well-formed UTF-8 byte sequences): both ends of each row, and what lies
/// beyond.
TEST(Utf8, IsWellFormedAsTheStandardSays) {
    const Sequence sequences[] = {
        {"", std::nullopt},
        {"\x7F", std::nullopt},
        {"\xC2\x80", std::nullopt},
        {"\xDF\xBF", std::nullopt},
        {"\xE0\xA0\x80", std::nullopt},
        {"\xED\x9F\xBF", std::nullopt},
        {"\xEE\x80\x80", std::nullopt},
        {"\xEF\xBF\xBF", std::nullopt},
        {"\xF0\x90\x80\x80", std::nullopt},
        {"\xF4\x8F\xBF\xBF", std::nullopt},
        {"a\x80", 1},            // continuation without a first byte
        {"ab\xC1\xBF", 2},       // longer than need be
        {"\xE0\x9F\xBF", 0},     // longer than need be
        {"\xED\xA0\x80", 0},     // surrogate
        {"\xF0\x8F\xBF\xBF", 0}, // longer than need be
        {"\xF4\x90\x80\x80", 0}, // beyond U+10FFFF
        {"\xF5\x80\x80\x80", 0}, // no first byte
        {"a\xE2\x82", 1},        // cut
        {"\xE2\x28\xA1", 0},     // second byte is no continuation
        {"\xF0\x9F\x98\x28", 0}, // last byte is no continuation
    };
    for (const auto& [bytes, first_bad] : sequences)
        EXPECT_EQ(first_byte_not_utf8(bytes), first_bad) << testing::PrintToString(bytes);
}

TEST(Utf8, IsMadePrintable) {
    EXPECT_EQ(printable("a\tb"), "a\tb");
    EXPECT_EQ(printable("\x1B[31m"), "\uFFFD[31m");
    EXPECT_EQ(printable("Ω\xFFµ"), "Ω\uFFFDµ");
}

} // namespace
} // namespace coilward
