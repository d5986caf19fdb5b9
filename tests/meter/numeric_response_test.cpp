#include "meter/numeric_response.h"

#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

using Form = NumericResponse::Form;

struct Readable {
    const char* text;
    double value;
    double resolution;
    Form form;
};

TEST(NumericResponse, ReadsTheThreeFormsOfIeee488) {
    // Forms and examples: NR1 "+800", NR2 "+1.56", NR3 "+2.345678E+04" (B&K 830C manual, p. 79); 9.9E37
    // without the exponent's sign (Keithley 2700 manual, p. 14-3); "186.97E-6" (Aim-TTi LCR400 manual, p.
    // 19).
    const std::vector<Readable> table{
        {"+800", 800.0, 1.0, Form::nr1},
        {"-3", -3.0, 1.0, Form::nr1},
        {"+1.56", 1.56, 0.01, Form::nr2},
        {"+2.345678E+04", 23456.78, 0.01, Form::nr3},
        {"9.9E37", 9.9e37, 1e36, Form::nr3},
        {"186.97E-6", 186.97e-6, 1e-8, Form::nr3},
        {"101.234e-3", 101.234e-3, 1e-6, Form::nr3},
        {"00.1234e00", 0.1234, 1e-4, Form::nr3},
    };
    for (const Readable& row : table) {
        const auto number = numeric_response(row.text);
        ASSERT_TRUE(number) << row.text;
        EXPECT_DOUBLE_EQ(number->value, row.value) << row.text;
        EXPECT_DOUBLE_EQ(number->resolution, row.resolution) << row.text;
        EXPECT_EQ(number->form, row.form) << row.text;
    }
}

TEST(NumericResponse, RefusesWhatIsNoWholeNumber) {
    for (const char* text :
         {"",       "+",        ".",           ".5",         "+.5E+00",        "1.",
          "1.E+00", "345E+00",  "+4.12345E",   "+4.12345E+", "+4.12345E+0001", "1.5E+00 ",
          " 1.5",   "1,5",      "nan",         "inf",        "0x1F",           "+4.123+4.12345E+00",
          "--1.0",  "1.0E+400", "0.0000E+337", "0.0E-340",   "+4.l2E+00"})
        EXPECT_FALSE(numeric_response(text)) << text;
    EXPECT_FALSE(numeric_response(std::string_view("1.5\0", 4)));
}

TEST(NumericResponse, ScalesByAPowerOfTenWithoutASecondRounding) {
    // 7.3521 kilohm: 7.3521 * 1e3 is 7352.099999999999 in doubles.
    EXPECT_EQ(numeric_response("7.3521", 3)->value, 7352.1);
    EXPECT_EQ(numeric_response("+112.3E+0", -12)->value, 112.3e-12);
    EXPECT_DOUBLE_EQ(numeric_response("7.3521", 3)->resolution, 0.1);
}

TEST(NumericResponse, TellsWhereANumberEnds) {
    EXPECT_EQ(numeric_response_length("12.345k"), 6U);
    EXPECT_EQ(numeric_response_length("+1.23456789E-03VDC"), 15U);
    EXPECT_EQ(numeric_response_length("5Eggs"), 1U);
    EXPECT_EQ(numeric_response_length("OL"), 0U);
}

} // namespace
} // namespace coilward
