#include "units/engineering.h"

#include "units/decimal.h"
#include "units/prefix.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

/// How a group of numbers is scaled before it is written. No prefix reaches beyond femto and tera.
struct Scale {
    bool scientific = false;
    Prefix prefix{0, ""};
};

Scale scale_for(int leading, std::string_view unit) {
    if (!takes_prefix(unit)) return {.scientific = leading < -6 || leading > 14};
    if (leading < prefixes.front().power || leading > prefixes.back().power + 2) return {.scientific = true};
    const auto above = std::ranges::find_if(prefixes, [&](const Prefix& p) { return p.power > leading; });
    return {.prefix = *std::prev(above)};
}

std::string number(const Decimal& decimal, const Scale& scale) {
    return scale.scientific ? written_scientific(decimal) : written(decimal, scale.prefix.power);
}

std::string with_unit(std::string_view text, const Scale& scale, std::string_view unit) {
    const auto symbol = fmt::format("{}{}", scale.prefix.symbol, unit_symbol(unit));
    return symbol.empty() ? std::string(text) : fmt::format("{} {}", text, symbol);
}

std::string in_words(double value) {
    if (std::isnan(value)) return "not a number";
    return value < 0.0 ? "minus infinity" : "infinity";
}

std::string engineering_text(const Decimal& decimal, std::string_view unit) {
    const auto scale = decimal.is_zero() ? Scale{} : scale_for(decimal.leading(), unit);
    return with_unit(number(decimal, scale), scale, unit);
}

/// The place of the last digit worth showing of an uncertainty (rule of the Particle Data Group).
int last_place_of(double uncertainty) {
    const auto three = to_significant(uncertainty, 3);
    const int kept = three.digits >= "355" && three.digits < "950" ? 1 : 2;
    return (three.digits >= "950" ? three.leading() + 1 : three.leading()) - kept + 1;
}

} // namespace

std::string engineering(double value, std::string_view unit, int digits) {
    if (!std::isfinite(value)) return in_words(value);
    return engineering_text(to_significant(value, std::max(digits, 1)), unit);
}

std::string engineering_shortest(double value, std::string_view unit) {
    if (!std::isfinite(value)) return in_words(value);
    return engineering_text(to_shortest(value), unit);
}

std::string engineering_with_uncertainty(double value, double standard_uncertainty, std::string_view unit) {
    if (!std::isfinite(value) || !std::isfinite(standard_uncertainty) || standard_uncertainty <= 0.0)
        return fmt::format("{} ± {}", engineering(value, unit), engineering(standard_uncertainty, unit));

    const int place = last_place_of(standard_uncertainty);
    const auto rounded = to_place(value, place);
    const auto uncertainty = to_place(standard_uncertainty, place);
    const auto scale = scale_for(std::max(rounded.leading(), uncertainty.leading()), unit);
    return with_unit(fmt::format("{} ± {}", number(rounded, scale), number(uncertainty, scale)), scale, unit);
}

std::string engineering_range(double low, double high, std::string_view unit, int digits) {
    const auto each_by_itself = [&] {
        return fmt::format("{} to {}", engineering(low, unit, digits), engineering(high, unit, digits));
    };
    if (!std::isfinite(low) || !std::isfinite(high)) return each_by_itself();

    const auto low_digits = to_significant(low, std::max(digits, 1));
    const auto high_digits = to_significant(high, std::max(digits, 1));
    constexpr int far_apart = 3; // decades
    if (!low_digits.is_zero() && !high_digits.is_zero() &&
        std::abs(high_digits.leading() - low_digits.leading()) >= far_apart)
        return each_by_itself();
    if (low_digits.is_zero() && high_digits.is_zero()) return with_unit("0 to 0", {}, unit);
    const int leading = low_digits.is_zero()    ? high_digits.leading()
                        : high_digits.is_zero() ? low_digits.leading()
                                                : std::max(low_digits.leading(), high_digits.leading());
    const auto scale = scale_for(leading, unit);
    const auto end = [&](const Decimal& decimal) { return decimal.is_zero() ? "0" : number(decimal, scale); };
    return with_unit(fmt::format("{} to {}", end(low_digits), end(high_digits)), scale, unit);
}

} // namespace coilward
