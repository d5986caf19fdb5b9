#include "meter/number_forms.h"

#include "meter/frame_pieces.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace coilward {
namespace {

/// How many places for digits stand in a part of a form.
int places_in(std::string_view part) {
    return static_cast<int>(std::ranges::count(part, 'D'));
}

/// The power of ten of the first digit.
int power_of(double value) {
    return value == 0.0 ? 0 : static_cast<int>(std::floor(std::log10(std::abs(value))));
}

std::string exponent_text(int power, std::string_view form) {
    const int digits = std::max(1, places_in(form));
    const bool has_sign = form.starts_with('S') || power < 0;
    return fmt::format("{}{:0{}}", has_sign ? (power < 0 ? "-" : "+") : "", std::abs(power), digits);
}

/// The marks of the sign of a number, or of that of its exponent.
struct SignMarks {
    std::uint64_t plus;
    std::uint64_t minus;
    std::uint64_t either;
};

constexpr SignMarks number_sign{NumberLook::plus, NumberLook::minus, NumberLook::sign};
constexpr SignMarks exponent_sign{NumberLook::exponent_plus, NumberLook::exponent_minus,
                                  NumberLook::exponent_sign};

/// What a form asks for, while it is read from its front: bits of NumberLook::word.
struct AskedLook {
    std::uint64_t judged = ~std::uint64_t{0};
    NumberLook wanted;
};

/// Takes the place of a sign off the front of a form.
void take_sign(std::string_view& form, const SignMarks& sign, AskedLook& look) {
    const char place = form.empty() ? '\0' : form.front();
    if (place == 'S') {
        look.judged &= ~(sign.plus | sign.minus);
        look.wanted.word |= sign.either;
    } else if (place == 's') {
        look.judged &= ~(sign.minus | sign.either);
    } else if (place == '+' || place == '-') {
        look.wanted.word |= sign.either | (place == '+' ? sign.plus : sign.minus);
    } else {
        return;
    }
    form.remove_prefix(1);
}

/// Takes "DDD" or "#" off the front of a form; false where neither is there.
bool take_places(std::string_view& form, NumberLook::Place place, AskedLook& look) {
    if (form.starts_with('#')) {
        form.remove_prefix(1);
        look.judged &= ~(std::uint64_t{0xFFFF} << place); // one digit is always there
        return true;
    }
    const std::size_t places = std::min(form.find_first_not_of('D'), form.size());
    form.remove_prefix(places);
    look.wanted.count(place, places);
    return places > 0;
}

/// Nothing where marks and counts do not say all that the form asks for.
std::optional<AskedLook> look_of(std::string_view form) {
    AskedLook look;
    take_sign(form, number_sign, look);
    if (!take_places(form, NumberLook::whole, look)) return std::nullopt;
    if (form.starts_with('.')) {
        form.remove_prefix(1);
        look.wanted.word |= NumberLook::point | NumberLook::any_point;
        if (!take_places(form, NumberLook::decimals, look)) return std::nullopt;
    }
    if (form.starts_with('E') || form.starts_with('e')) {
        look.wanted.word |= NumberLook::any_exponent;
        look.wanted.word |= form.starts_with('E') ? NumberLook::capital_e : NumberLook::small_e;
        form.remove_prefix(1);
        take_sign(form, exponent_sign, look);
        if (!take_places(form, NumberLook::exponent, look)) return std::nullopt;
    }
    return form.empty() ? std::optional(look) : std::nullopt;
}

} // namespace

WrittenForm::WrittenForm(std::string form) : text_(std::move(form)) {
    const auto look = look_of(text_);
    by_characters_ = !look;
    if (!look) return;
    judged_ = look->judged;
    wanted_ = look->wanted.word;
}

bool has_form(std::string_view number, std::string_view form) {
    std::size_t at = 0;
    const auto next_is = [&](auto of_kind) { return at < number.size() && of_kind(number[at]); };
    for (const char place : form) {
        if (place == 'D') { // nearly always
            if (at == number.size() || !is_digit(number[at])) return false;
        } else if (place == 'S') {
            if (!next_is([](char each) { return each == '+' || each == '-'; })) return false;
        } else if (place == 's') {
            if (!next_is([](char each) { return each == '-'; })) continue;
        } else if (place == '#') {
            if (!next_is(is_digit)) return false;
            while (next_is(is_digit))
                ++at;
            continue;
        } else if (at == number.size() || number[at] != place) {
            return false;
        }
        ++at;
    }
    return at == number.size();
}

std::optional<std::string> written_in_form(double value, std::string_view form, int open_decimals) {
    constexpr int most_leading_zeros = 8;
    const std::size_t mark = form.find_first_of("Ee");
    const std::string_view mantissa = form.substr(0, mark);
    const std::size_t point = std::min(mantissa.find('.'), mantissa.size());
    const std::string_view fraction = mantissa.substr(std::min(point + 1, mantissa.size()));
    const int decimals = fraction.ends_with('#') ? open_decimals : places_in(fraction);
    const std::string_view sign = std::signbit(value) ? "-" : form.starts_with('S') ? "+" : "";
    const auto in_form = [&](int power, const std::string& exponent) -> std::optional<std::string> {
        std::string text =
            fmt::format("{}{:.{}f}{}", sign, std::abs(value) / std::pow(10.0, power), decimals, exponent);
        return has_form(text, form) ? std::optional(std::move(text)) : std::nullopt;
    };
    if (mark == std::string_view::npos) return in_form(0, "");
    const int first = power_of(value) - std::max(0, places_in(mantissa.substr(0, point)) - 1);
    for (int power = first; power <= first + most_leading_zeros; ++power)
        if (auto text = in_form(power, form[mark] + exponent_text(power, form.substr(mark + 1)))) return text;
    return std::nullopt;
}

bool is_number_form(std::string_view form) {
    constexpr std::string_view places = "SsD#.Ee-+";
    return form.find_first_of("D#") != std::string_view::npos && std::ranges::all_of(form, [&](char place) {
               return is_digit(place) || places.find(place) != std::string_view::npos;
           });
}

} // namespace coilward
