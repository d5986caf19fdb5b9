#pragma once

#include "rewind/uncertain.h"
#include "units/range.h"

#include <optional>
#include <string>
#include <string_view>

namespace coilward {

/// A number as a person types it, in that unit. Throws CLI::ValidationError that names the option.
double number_in_words(const std::string& option, const std::string& words, std::string_view unit);

/// A number above 0, such as a length. Throws CLI::ValidationError.
double positive_in_words(const std::string& option, const std::string& words, std::string_view unit);

/// "5.41 ± 0.02" or "5.41 +- 0.02". Throws CLI::ValidationError, also where there is no uncertainty and none
/// is `usual`.
Uncertain uncertain_in_words(const std::string& option, const std::string& words, std::string_view unit,
                             std::optional<double> usual = std::nullopt);

/// Limits "5.9k..6.4k"; one end may be left out. Throws CLI::ValidationError.
Range limits_in_words(const std::string& option, const std::string& words, std::string_view unit);

} // namespace coilward
