#pragma once

#include "meter/numeric_response.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace coilward {

/// True where the number is written as the form says. A meter prints a number in one or a few layouts only,
/// and its manual often shows them; a number that lost or won a digit on the way fits none.
///
///     S  + or -          s  a minus or nothing
///     D  one digit       #  one or more digits
///     any other character stands for itself
bool has_form(std::string_view number, std::string_view form);

/// A form of a protocol, with what it asks of a number's look worked out once.
class WrittenForm {
public:
    /// Any text; only one for which is_number_form() holds is the form of a number.
    WrittenForm(std::string form);

    /// As it was given.
    const std::string& text() const { return text_; }

    /// As it was given.
    operator const std::string&() const { return text_; }

    /// The same answer as has_form() gives for the number's characters.
    bool fits(const NumberText& number) const {
        return (number.look.word & judged_) == wanted_ &&
               (!by_characters_ || has_form(number.written, text_));
    }

private:
    std::string text_;
    std::uint64_t judged_ = 0; ///< with a bit set for each of NumberLook::word that has to be as in `wanted_`
    std::uint64_t wanted_ = 0;
    bool by_characters_ = false; ///< it asks for more than marks and counts: a digit of its own
};

/// True for a form in which a number can be written: digits, and S, s, a point, E or e between them.
bool is_number_form(std::string_view form);

/// The number in that form, with so many decimals where the form leaves them open; nothing where it cannot be
/// written so.
std::optional<std::string> written_in_form(double value, std::string_view form, int open_decimals);

} // namespace coilward
