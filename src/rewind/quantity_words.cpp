#include "rewind/quantity_words.h"

#include "diagnosis/evidence.h"
#include "units/engineering.h"

#include <limits>

#include <fmt/format.h>

namespace coilward {
namespace {

/// Parts before and after a mark; nothing where the mark is not there.
std::optional<std::pair<std::string, std::string>> parted(const std::string& words, std::string_view mark) {
    const auto at = words.find(mark);
    if (at == std::string::npos) return std::nullopt;
    return std::pair{words.substr(0, at), words.substr(at + mark.size())};
}

bool is_blank(const std::string& words) {
    return words.find_first_not_of(' ') == std::string::npos;
}

} // namespace

double number_in_words(const std::string& option, const std::string& words, std::string_view unit) {
    const auto number = parse_engineering(words, unit);
    if (!number)
        throw BadWords(option, fmt::format("\"{}\" is no number{}", words,
                                           unit == "1" ? std::string()
                                                       : fmt::format(" in {}, such as 2.5 or 2.5m", unit)));
    if (unit == "degC" && !can_be_temperature(*number))
        throw BadWords(option, fmt::format("no thermometer shows \"{}\"; give degrees Celsius", words));
    return *number;
}

double positive_in_words(const std::string& option, const std::string& words, std::string_view unit) {
    const double number = number_in_words(option, words, unit);
    if (!(number > 0.0)) throw BadWords(option, fmt::format("\"{}\" is not above 0", words));
    return number;
}

Uncertain uncertain_in_words(const std::string& option, const std::string& words, std::string_view unit,
                             std::optional<double> usual) {
    for (const char* mark : {"±", "+-"})
        if (const auto parts = parted(words, mark)) {
            const double u = number_in_words(option, parts->second, unit);
            if (u < 0.0)
                throw BadWords(option, fmt::format("an uncertainty of \"{}\" is impossible", parts->second));
            return {number_in_words(option, parts->first, unit), u};
        }
    if (!usual)
        throw BadWords(option, fmt::format("\"{}\" has no uncertainty; write it as {}±0.02", words, words));
    return {number_in_words(option, words, unit), *usual};
}

Range limits_in_words(const std::string& option, const std::string& words, std::string_view unit) {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    const auto parts = parted(words, "..");
    if (!parts || (is_blank(parts->first) && is_blank(parts->second)))
        throw BadWords(option,
                       fmt::format("\"{}\" is no pair of limits; write LOW..HIGH, LOW.. or ..HIGH", words));
    const Range limits{is_blank(parts->first) ? -infinity : number_in_words(option, parts->first, unit),
                       is_blank(parts->second) ? infinity : number_in_words(option, parts->second, unit)};
    if (!(limits.low < limits.high))
        throw BadWords(option, fmt::format("\"{}\" holds nothing; give the lower limit first", words));
    return limits;
}

} // namespace coilward
