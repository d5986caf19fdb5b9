#include "meter/frame_writing.h"

#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

namespace coilward {

std::optional<ShownNumber> shown_number(std::optional<double> value, int lowest_power, int highest_power,
                                        long long most_counts) {
    if (!value || !std::isfinite(*value)) return std::nullopt;
    for (int power = lowest_power; power <= highest_power; ++power) {
        const double counts = std::round(*value / std::pow(10.0, power));
        if (std::abs(counts) <= static_cast<double>(most_counts))
            return ShownNumber{static_cast<long long>(counts), power};
    }
    return std::nullopt;
}

std::string in_digits(long long counts, int digits) {
    return fmt::format("{:0{}}", std::llabs(counts), digits);
}

std::string with_point(long long counts, int decimals) {
    std::string text = in_digits(counts, decimals + 1);
    if (decimals > 0) text.insert(text.size() - static_cast<std::size_t>(decimals), ".");
    return counts < 0 ? "-" + text : text;
}

std::string blanks_before(std::string_view text, std::size_t width) {
    return fmt::format("{:>{}}", text, width);
}

std::string blanks_behind(std::string_view text, std::size_t width) {
    return fmt::format("{:<{}}", text, width);
}

std::string in_half_bytes(long long counts) {
    std::string bytes;
    const std::string digits = in_digits(counts, 4);
    for (std::size_t i = 0; i < 4; i += 2)
        bytes += byte_of(static_cast<unsigned>(digits[i] - '0') << 4U |
                         static_cast<unsigned>(digits[i + 1] - '0'));
    return bytes;
}

std::string in_two_bytes(long long counts) {
    const auto bits = static_cast<unsigned>(counts);
    return {byte_of(bits >> 8U), byte_of(bits)};
}

char byte_of(unsigned bits) {
    return static_cast<char>(bits & 0xFFU);
}

Quantity quantity_at(const MeterSetting& setting, std::size_t place) {
    return setting.quantities.at(place);
}

} // namespace coilward
