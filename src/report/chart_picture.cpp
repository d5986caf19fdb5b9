#include "report/chart_page.h"
#include "report/picture_style.h"
#include "report/svg.h"
#include "units/engineering.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr double chart_height = 460.0;
constexpr double left = 90.0;
constexpr double right = 740.0;

constexpr std::string_view mean_colour = "#4a7a50";

/// One of the two diagrams: a band of the picture, and what lies at its ends.
struct Diagram {
    double top;
    double bottom;
    double lowest;
    double highest;

    double y(double value) const { return bottom - (value - lowest) / (highest - lowest) * (bottom - top); }
};

double x_of(std::size_t point, std::size_t count) {
    return left + 20.0 + (right - left - 40.0) * (count < 2 ? 0.5 : double(point) / double(count - 1));
}

void draw_level(Svg& svg, const Diagram& diagram, double value, std::string_view colour,
                std::string_view unit_name, std::string_view dashes) {
    svg.line(left, diagram.y(value), right, diagram.y(value), colour, 1.0, dashes);
    svg.text(left - 6.0, diagram.y(value) + 4.0, engineering(value, unit_name, 5), colour, 11, "end");
}

void draw_points(Svg& svg, const Diagram& diagram, const std::vector<double>& values, std::size_t first_place,
                 std::size_t count, const std::set<std::size_t>& marked) {
    for (std::size_t n = 0; n < values.size(); ++n) {
        const double x = x_of(n + first_place, count);
        if (n > 0)
            svg.line(x_of(n - 1 + first_place, count), diagram.y(values[n - 1]), x, diagram.y(values[n]),
                     picture::quiet);
    }
    for (std::size_t n = 0; n < values.size(); ++n) {
        const bool sign = marked.contains(n + first_place);
        svg.dot(x_of(n + first_place, count), diagram.y(values[n]), sign ? 5.5 : 3.5,
                sign ? picture::mark : picture::ink);
    }
}

Diagram diagram_of(double top, double bottom, double low, double high, const std::vector<double>& values) {
    low = std::min(low, *std::ranges::min_element(values));
    high = std::max(high, *std::ranges::max_element(values));
    const double margin = high > low ? 0.05 * (high - low) : 1.0;
    return {top, bottom, low - margin, high + margin};
}

} // namespace

std::string chart_picture(const RewindChart& chart) {
    const ControlChart& c = chart.chart;
    const std::string_view unit_name = unit(chart.quantity);
    std::set<std::size_t> values_marked;
    std::set<std::size_t> ranges_marked;
    for (const DriftSign& sign : chart.signs)
        (sign.rule == 1 ? ranges_marked : values_marked).insert(sign.point);
    Svg svg(picture::width, chart_height);
    svg.text(24.0, 28.0,
             fmt::format("Rewinds of {}: {}", chart.coil_model,
                         describe({.quantity = chart.quantity, .frequency_hz = chart.frequency_hz})),
             picture::ink, 17);
    const Diagram individuals = diagram_of(50.0, 290.0, c.lower_limit, c.upper_limit, c.values);
    draw_level(svg, individuals, c.upper_limit, picture::mark, unit_name, "6,4");
    draw_level(svg, individuals, c.mean, mean_colour, unit_name, "none");
    draw_level(svg, individuals, c.lower_limit, picture::mark, unit_name, "6,4");
    draw_points(svg, individuals, c.values, 0, c.values.size(), values_marked);
    const Diagram ranges = diagram_of(325.0, 425.0, 0.0, c.upper_range_limit, c.moving_ranges);
    draw_level(svg, ranges, c.upper_range_limit, picture::mark, unit_name, "6,4");
    draw_level(svg, ranges, c.mean_range, mean_colour, unit_name, "none");
    draw_points(svg, ranges, c.moving_ranges, 1, c.values.size(), ranges_marked);
    svg.text(24.0, 312.0, "difference from the one before", picture::quiet);
    svg.text(left, 450.0, text_of(chart.coils.front().at).substr(0, 10), picture::quiet, 11);
    svg.text(right, 450.0, text_of(chart.coils.back().at).substr(0, 10), picture::quiet, 11, "end");
    return svg.finished();
}

} // namespace coilward
