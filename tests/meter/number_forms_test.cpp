#include "meter/number_forms.h"

#include <array>
#include <string>

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct Row {
    const char* number;
    const char* form;
    bool fits;
};

TEST(NumberForms, AreTheLayoutsThatManualsPrint) {
    constexpr std::array<Row, 27> table{{
        {"+6.11200000E+03", "SD.DDDDDDDDESDD", true}, // Atten ATM3500A manual, p. 153
        {"-6.11200000E+03", "SD.DDDDDDDDESDD", true},
        {"6.11200000E+03", "SD.DDDDDDDDESDD", false}, // each place lost in turn
        {"+6.1120000E+03", "SD.DDDDDDDDESDD", false},
        {"+611200000E+03", "SD.DDDDDDDDESDD", false},
        {"+6.11200000+03", "SD.DDDDDDDDESDD", false},
        {"+6.11200000E03", "SD.DDDDDDDDESDD", false},
        {"+6.11200000E+0", "SD.DDDDDDDDESDD", false},
        {"+6.112000000E+03", "SD.DDDDDDDDESDD", false}, // one won
        {"+6.11200000E+033", "SD.DDDDDDDDESDD", false},
        {"+6.11200000e+03", "SD.DDDDDDDDESDD", false},
        {"101.234e-3", "s#.#e-D", true}, // Aim-TTi 1908 manual, p. 39
        {"-10.0012e00", "s#.#eDD", true},
        {"-10.0012e00", "s#.#e-D", false},
        {".0012e00", "s#.#eDD", false},
        {"12.345", "DD.DDD", true},
        {"12.34", "DD.DDD", false},
        {"", "DD.DDD", false},
        {"12.345", "", false},
        {"12.345", "#.DDD", true},
        {"12,345", "#.DDD", false},
        {"+12.345", "s#.#", false},
        {"-12.345", "-#.#", true},
        {"12.345", "-#.#", false},
        {"+9.9E+37", "+9.9E+37", true}, // digits of its own
        {"+9.8E+37", "+9.9E+37", false},
        {"123", "D##", false}, // # has taken them all
    }};
    for (const Row& row : table) {
        EXPECT_EQ(has_form(row.number, row.form), row.fits) << row.number << " as " << row.form;
        EXPECT_EQ(WrittenForm(row.form).fits(number_at_front(row.number)), row.fits)
            << row.number << " as " << row.form;
    }
}

TEST(NumberForms, AreMadeOfPlacesForDigits) {
    for (const char* form : {"SD.DDDDDESDD", "s#.#", "S#.#E+37", "DDDD"})
        EXPECT_TRUE(is_number_form(form)) << form;
    for (const char* form : {"", "S.", "number", "D,D", "D D"})
        EXPECT_FALSE(is_number_form(form)) << form;
}

TEST(NumberForms, CanBeWritten) {
    EXPECT_EQ(written_in_form(6112.0, "SD.DDDDDDDDESDD", 3), "+6.11200000E+03");
    EXPECT_EQ(written_in_form(-4.6e-11, "SD.DDDDDESDD", 3), "-4.60000E-11");
    EXPECT_EQ(written_in_form(0.0, "SD.DDDDDESDD", 3), "+0.00000E+00");
    EXPECT_EQ(written_in_form(0.18697e-3, "DDD.DDESD", 3), "186.97E-6");
    EXPECT_EQ(written_in_form(46e-12, "s#.#e-D", 5), "0.04600e-9");
    EXPECT_EQ(written_in_form(6112.0, "DDDD.D", 3), "6112.0");
    EXPECT_EQ(written_in_form(6112.0, "DDD.DD", 3), std::nullopt);
    EXPECT_EQ(written_in_form(-1.0, "D.DDDD", 3), std::nullopt);
}

} // namespace
} // namespace coilward
