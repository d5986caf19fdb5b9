#pragma once

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

/// True for a form in which a number can be written: digits, and S, s, a point, E or e between them.
bool is_number_form(std::string_view form);

/// The number in that form, with so many decimals where the form leaves them open; nothing where it cannot be
/// written so.
std::optional<std::string> written_in_form(double value, std::string_view form, int open_decimals);

} // namespace coilward
