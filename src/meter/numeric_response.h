#pragma once

#include <optional>
#include <string_view>

namespace coilward {

/// A number as an instrument sends it.
struct NumericResponse {
    enum class Form {
        nr1, ///< 12, -3
        nr2, ///< 12.5
        nr3, ///< +1.25E+01
    };
    double value = 0.0;
    double resolution = 0.0; ///< one step of its last digit
    Form form = Form::nr1;
    bool has_sign = false;
};

/// Reads the whole text by the response grammar of IEEE 488.2 (NR1, NR2, NR3): digits on both sides of a
/// point, an exponent only after a point; its sign may be absent, as instruments write it ("9.9E37"). A
/// number that lost its beginning, as "345E+00", is therefore refused. The value is that of the text times
/// 10^`power`, rounded once. Nothing where the text is no such number or no finite one.
std::optional<NumericResponse> numeric_response(std::string_view text, int power = 0);

/// How many of the first characters are such a number, the longest that can be read; 0 where there is none.
std::size_t numeric_response_length(std::string_view text);

} // namespace coilward
