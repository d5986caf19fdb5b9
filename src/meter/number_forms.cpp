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

/// What a form asks of the sign of a number, or of that of its exponent.
struct SignMarks {
    std::uint32_t plus;
    std::uint32_t minus;
    std::uint32_t either;
};

constexpr SignMarks number_sign{NumberLook::plus, NumberLook::minus, NumberLook::sign};
constexpr SignMarks exponent_sign{NumberLook::exponent_plus, NumberLook::exponent_minus,
                                  NumberLook::exponent_sign};

/// The marks that a form asks for, among those that it judges.
struct AskedMarks {
    std::uint32_t judged;
    std::uint32_t asked;
};

/// Takes the place of a sign off the front of a form.
void take_sign(std::string_view& form, const SignMarks& sign, AskedMarks& marks) {
    const char place = form.empty() ? '\0' : form.front();
    if (place == 'S') {
        marks.judged &= ~(sign.plus | sign.minus);
        marks.asked |= sign.either;
    } else if (place == 's') {
        marks.judged &= ~(sign.minus | sign.either);
    } else if (place == '+' || place == '-') {
        marks.asked |= sign.either | (place == '+' ? sign.plus : sign.minus);
    } else {
        return;
    }
    form.remove_prefix(1);
}

/// Takes "DDD" or "#" off the front of a form; how many digits it asks for, `any` for "#", 0 where neither is
/// there.
int take_places(std::string_view& form, int any) {
    if (form.starts_with('#')) {
        form.remove_prefix(1);
        return any;
    }
    const std::size_t places = std::min(form.find_first_not_of('D'), form.size());
    form.remove_prefix(places);
    return static_cast<int>(places);
}

} // namespace

WrittenForm::WrittenForm(std::string form) : text_(std::move(form)), by_characters_(!count(text_)) {}

/// Works out what the form asks for; false where marks and counts do not say it.
bool WrittenForm::count(std::string_view rest) {
    AskedMarks marks{.judged = ~0U, .asked = 0};
    take_sign(rest, number_sign, marks);
    whole_ = take_places(rest, any);
    if (whole_ == 0) return false;
    if (rest.starts_with('.')) {
        rest.remove_prefix(1);
        marks.asked |= NumberLook::point;
        decimals_ = take_places(rest, any);
        if (decimals_ == 0) return false;
    }
    if (rest.starts_with('E') || rest.starts_with('e')) {
        marks.asked |= rest.starts_with('E') ? NumberLook::capital_e : NumberLook::small_e;
        rest.remove_prefix(1);
        take_sign(rest, exponent_sign, marks);
        exponent_digits_ = take_places(rest, any);
        if (exponent_digits_ == 0) return false;
    }
    judged_marks_ = marks.judged;
    marks_ = marks.asked;
    return rest.empty();
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
