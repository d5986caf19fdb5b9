#pragma once

#include "rewind/uncertain.h"
#include "units/range.h"

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

/// Quantities as a person types them, at the terminal or into a form.
namespace coilward {

/// Words that say no such thing. One line; it begins with what they were given for: an option of a command,
/// such as "--core", which is a field of the same name without its dashes.
struct BadWords : std::runtime_error {
    using std::runtime_error::runtime_error;

    /// "OPTION: says".
    BadWords(const std::string& option, const std::string& says) : std::runtime_error(option + ": " + says) {}
};

/// A number as a person types it, in that unit. Throws BadWords that names the option, also for a temperature
/// (degC) that no thermometer shows.
double number_in_words(const std::string& option, const std::string& words, std::string_view unit);

/// A number above 0, such as a length, in that unit. Throws BadWords.
double positive_in_words(const std::string& option, const std::string& words, std::string_view unit);

/// "5.41 ± 0.02" or "5.41 +- 0.02", the uncertainty standard and in that unit too. Throws BadWords, also
/// where there is no uncertainty and none is `usual`.
Uncertain uncertain_in_words(const std::string& option, const std::string& words, std::string_view unit,
                             std::optional<double> usual = std::nullopt);

/// Limits "5.9k..6.4k"; one end may be left out, and is then infinite. Throws BadWords.
Range limits_in_words(const std::string& option, const std::string& words, std::string_view unit);

} // namespace coilward
