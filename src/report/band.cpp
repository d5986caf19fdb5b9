#include "report/band.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <vector>

namespace coilward {
namespace {

std::string joined(const std::vector<std::string_view>& cells) {
    std::string text;
    for (const std::string_view cell : cells)
        text += cell;
    return text;
}

} // namespace

std::string band(double measured, double standard_uncertainty, Range expected, int width) {
    const double span = 2.0 * (expected.high - expected.low);
    const double left = 0.5 * (expected.low + expected.high) - 0.5 * span;
    const auto column = [&](double value) {
        return static_cast<int>(
            std::clamp(std::floor((value - left) / span * width), -1.0, static_cast<double>(width)));
    };
    std::vector<std::string_view> cells(static_cast<std::size_t>(width), " ");
    const auto draw = [&](int at, std::string_view sign) {
        if (at >= 0 && at < width) cells[static_cast<std::size_t>(at)] = sign;
    };
    for (int at = column(expected.low); at <= column(expected.high); ++at)
        draw(at, "─");
    draw(column(expected.low), "├");
    draw(column(expected.high), "┤");
    for (int at = column(measured - 2.0 * standard_uncertainty);
         at <= column(measured + 2.0 * standard_uncertainty); ++at)
        draw(at, "═");
    const int place = column(measured);
    if (place < 0)
        draw(0, "◀");
    else if (place >= width)
        draw(width - 1, "▶");
    else
        draw(place, "●");
    return joined(cells);
}

std::string bar(double share, int width) {
    constexpr std::array<std::string_view, 8> part{"", "▏", "▎", "▍", "▌", "▋", "▊", "▉"};
    const auto eighths = static_cast<std::size_t>(std::lround(std::clamp(share, 0.0, 1.0) * 8.0 * width));
    std::string text;
    for (std::size_t i = 0; i < eighths / 8; ++i)
        text += "█";
    return text + std::string(part[eighths % 8]);
}

} // namespace coilward
