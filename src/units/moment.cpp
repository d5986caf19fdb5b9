#include "units/moment.h"

#include <fmt/format.h>

namespace coilward {
namespace {

using namespace std::chrono;

bool is_digit(char character) {
    return character >= '0' && character <= '9';
}

/// Takes a number of exactly `count` digits off the front of the text.
std::optional<int> take_digits(std::string_view& text, std::size_t count) {
    if (text.size() < count) return std::nullopt;
    int number = 0;
    for (const char character : text.substr(0, count)) {
        if (!is_digit(character)) return std::nullopt;
        number = number * 10 + (character - '0');
    }
    text.remove_prefix(count);
    return number;
}

/// Takes one of the characters off the front of the text; 0 where none of them is there.
char take_one_of(std::string_view& text, std::string_view characters) {
    if (text.empty() || characters.find(text.front()) == std::string_view::npos) return 0;
    const char taken = text.front();
    text.remove_prefix(1);
    return taken;
}

std::optional<sys_days> take_date(std::string_view& text) {
    const auto years = take_digits(text, 4);
    if (!years || !take_one_of(text, "-")) return std::nullopt;
    const auto months = take_digits(text, 2);
    if (!months || !take_one_of(text, "-")) return std::nullopt;
    const auto days_of_month = take_digits(text, 2);
    if (!days_of_month) return std::nullopt;
    const auto date = year{*years} / *months / *days_of_month;
    if (!date.ok()) return std::nullopt;
    return sys_days{date};
}

std::optional<minutes> take_hours_and_minutes(std::string_view& text) {
    const auto hour = take_digits(text, 2);
    if (!hour || *hour > 23 || !take_one_of(text, ":")) return std::nullopt;
    const auto minute = take_digits(text, 2);
    if (!minute || *minute > 59) return std::nullopt;
    return hours{*hour} + minutes{*minute};
}

/// ":SS" and an optional fraction. 60 is a leap second, which the clock counts as the next minute's first.
std::optional<milliseconds> take_seconds(std::string_view& text) {
    if (!take_one_of(text, ":")) return std::nullopt;
    const auto second = take_digits(text, 2);
    if (!second || *second > 60) return std::nullopt;
    milliseconds sum = seconds{*second};
    if (!take_one_of(text, ".")) return sum;
    if (text.empty() || !is_digit(text.front())) return std::nullopt;
    for (int place = 100; !text.empty() && is_digit(text.front()); place /= 10) {
        sum += milliseconds{place * (text.front() - '0')};
        text.remove_prefix(1);
    }
    return sum;
}

/// "Z" or "+HH:MM": how far local time is ahead of UTC.
std::optional<minutes> take_offset(std::string_view& text) {
    const char sign = take_one_of(text, "Zz+-");
    if (sign == 0) return std::nullopt;
    if (sign == 'Z' || sign == 'z') return minutes{0};
    const auto size = take_hours_and_minutes(text);
    if (!size) return std::nullopt;
    return sign == '-' ? -*size : *size;
}

} // namespace

std::string text_of(Moment at) {
    const auto day = floor<days>(at);
    const year_month_day date{day};
    const hh_mm_ss time{at - day};
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.{:03}Z", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                       time.hours().count(), time.minutes().count(), time.seconds().count(),
                       time.subseconds().count());
}

std::optional<Moment> moment_from_text(std::string_view text) {
    const auto date = take_date(text);
    if (!date || !take_one_of(text, "Tt ")) return std::nullopt;
    const auto hour_and_minute = take_hours_and_minutes(text);
    if (!hour_and_minute) return std::nullopt;
    const auto second = take_seconds(text);
    if (!second) return std::nullopt;
    const auto offset = take_offset(text);
    if (!offset || !text.empty()) return std::nullopt;
    return *date + *hour_and_minute + *second - *offset;
}

} // namespace coilward
