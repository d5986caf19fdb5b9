#include "report/winding_section.h"

#include "report/picture_style.h"
#include "report/verdict_words.h"

#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::string_view core = "  core  ";
constexpr std::size_t core_columns = 8;

std::string repeated(std::string_view piece, std::size_t times) {
    std::string text;
    for (std::size_t i = 0; i < times; ++i)
        text += piece;
    return text;
}

double greatest(const PlaceInWinding& place) {
    return std::max({place.at_start, place.at_finish, *std::ranges::max_element(place.parts), 1e-12});
}

/// One of five shades, by a chance beside the greatest.
std::string_view shade(double chance, double greatest) {
    constexpr std::array<std::string_view, 5> shades{" ", "░", "▒", "▓", "█"};
    constexpr std::array<double, 4> steps{0.05, 0.25, 0.5, 0.8};
    const auto step = std::ranges::upper_bound(steps, chance / greatest) - steps.begin();
    return shades[static_cast<std::size_t>(step)];
}

/// Coordinates of the picture, in its own units.
constexpr double depth = 240.0; // of the winding on one side
constexpr double core_width = 90.0;
constexpr double height = 44.0;
constexpr double lead_radius = 5.0;
constexpr double lead_gap = 14.0;

struct Box {
    double x, y, width, height;
};

std::string box(const Box& b, std::string_view fill, double opacity) {
    return fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"{}\" "
                       "fill-opacity=\"{:.2f}\"/>\n",
                       b.x, b.y, b.width, b.height, fill, opacity);
}

std::string outline(const Box& b) {
    return fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"none\" "
                       "stroke=\"{}\"/>\n",
                       b.x, b.y, b.width, b.height, picture::quiet);
}

std::string lead(double x, double y, double opacity) {
    return fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{:.1f}\" fill=\"{}\" "
                       "fill-opacity=\"{:.2f}\" stroke=\"{}\"/>\n",
                       x, y, lead_radius, picture::mark, opacity, picture::quiet);
}

std::string label(double x, double y, std::string_view words) {
    return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"11\" fill=\"{}\" "
                       "text-anchor=\"middle\">{}</text>\n",
                       x, y, picture::quiet, words);
}

} // namespace

std::string winding_section(const PlaceInWinding& place) {
    const double most = greatest(place);
    std::string right;
    std::string left;
    for (const double part : place.parts) {
        right += shade(part, most);
        left.insert(0, shade(part, most));
    }
    const std::size_t wide = place.parts.size();
    const std::string edge = repeated("─", wide);
    const std::string core_edge = repeated("─", core_columns);
    const std::string indent(4, ' ');
    const std::string_view start = place.at_start >= 0.05 * most ? "●" : "○";
    const std::string_view finish = place.at_finish >= 0.05 * most ? "●" : "○";
    const std::string side = fmt::format("│{}{}{}│", left, fmt::format("│{}│", core), right);
    return fmt::format("{0}  ┌{1}┬{2}┬{1}┐\n"
                       "{0}  {3}\n"
                       "{0}{4} {3} {4}\n"
                       "{0}  └{1}┴{2}┴{1}┘\n"
                       "{0}finish{5}{6} start{5}finish\n",
                       indent, edge, core_edge, side, finish, std::string(wide - 3, ' '), start);
}

std::string winding_section_svg(const PlaceInWinding& place, double x, double y) {
    const double most = greatest(place);
    const double left = x + lead_gap;
    const double right = left + depth + core_width;
    const double step = depth / static_cast<double>(place.parts.size());
    std::string body;
    for (std::size_t i = 0; i < place.parts.size(); ++i) {
        const double opacity = place.parts[i] / most;
        const double from_core = step * static_cast<double>(i);
        body += box({right + from_core, y, step, height}, picture::mark, opacity);
        body += box({left + depth - from_core - step, y, step, height}, picture::mark, opacity);
    }
    body += box({left + depth, y, core_width, height}, picture::quiet, 0.25);
    body += outline({left, y, depth, height}) + outline({right, y, depth, height});
    body += lead(left + depth, y + height, place.at_start / most);
    body += lead(right, y + height, place.at_start / most);
    body += lead(left - lead_gap + lead_radius, y + 0.5 * height, place.at_finish / most);
    body += lead(right + depth + lead_gap - lead_radius, y + 0.5 * height, place.at_finish / most);
    body += label(left + depth + 0.5 * core_width, y + 0.5 * height + 4.0, "core");
    body += label(left + depth + 0.5 * core_width, y + height + 18.0, "start lead, inside");
    body += label(left + 0.25 * depth, y + height + 18.0, "finish lead, outside");
    return body;
}

std::string place_in_words(const PlaceInWinding& place) {
    return fmt::format(
        "at the start lead {}, at the finish lead {}; mended from outside, without a rewind: {}",
        percent(place.at_start), percent(place.at_finish), percent(place.mendable_outside));
}

} // namespace coilward
