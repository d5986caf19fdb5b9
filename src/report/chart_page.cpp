#include "report/chart_page.h"

#include "report/text_block.h"
#include "units/engineering.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

std::string amount(double value, const RewindChart& chart) {
    return engineering(value, unit(chart.quantity), 5);
}

std::string question(const RewindChart& chart) {
    return describe({.quantity = chart.quantity, .frequency_hz = chart.frequency_hz});
}

/// A line of so many places between the control limits, with the value's among them.
std::string place_in_words(double value, const ControlChart& chart) {
    constexpr int places = 25;
    std::string line(places, '.');
    line[places / 2] = '|';
    const double span = chart.upper_limit - chart.lower_limit;
    const double place = span > 0.0 ? (value - chart.lower_limit) / span * (places - 1) : (places - 1) / 2.0;
    if (place < 0.0) return '<' + line.substr(1);
    if (place > places - 1) return line.substr(1) + '>';
    line[static_cast<std::size_t>(std::lround(place))] = 'o';
    return line;
}

std::string row(std::size_t point, const RewindChart& chart) {
    const RewoundCoil& coil = chart.coils[point];
    const std::string range =
        point == 0 ? std::string("-") : amount(chart.chart.moving_ranges[point - 1], chart);
    std::string text = fmt::format(
        "{:>4}  {}  {} {} {} {}", point + 1, text_of(coil.at).substr(0, 10),
        padded(fmt::format("{}{}{}", coil.pickup.name, coil.coil.empty() ? "" : ", ", coil.coil), 26),
        padded(engineering_with_uncertainty(coil.value.value, coil.value.standard_uncertainty,
                                            unit(chart.quantity)),
               20),
        padded(range, 10), place_in_words(coil.value.value, chart.chart));
    return text + "\n";
}

/// Two digits, for shares that may be far below one per cent.
std::string share(double part) {
    return part > 0.9995 ? "> 99.95 %" : part < 1e-6 ? "< 0.0001 %" : fmt::format("{:.2g} %", 100.0 * part);
}

std::string risk_in_words(const RewindChart& chart) {
    if (!chart.risk) return "";
    return wrapped(
        fmt::format(
            "Of coils made like these {} lie within the model's limits; coilward confirm would pass {} "
            "of all although they do not, and not pass {} although they do (JCGM 106, clause 9).",
            share(chart.risk->conforming), share(chart.risk->consumer), share(chart.risk->producer)),
        "");
}

} // namespace

std::string chart_page(const RewindChart& chart) {
    const ControlChart& c = chart.chart;
    std::string page = fmt::format("Rewinds of {}: {}\n\n", chart.coil_model, question(chart));
    page += fmt::format("  mean {}, limits {} to {}; range's mean {}, limit {}\n\n", amount(c.mean, chart),
                        amount(c.lower_limit, chart), amount(c.upper_limit, chart),
                        amount(c.mean_range, chart), amount(c.upper_range_limit, chart));
    for (std::size_t point = 0; point < chart.coils.size(); ++point)
        page += row(point, chart);
    page += "\n";
    for (const DriftSign& sign : chart.signs)
        page += wrapped(fmt::format("{} {}: {} ({} of points by chance alone)", sign.point + 1,
                                    chart.coils[sign.point].pickup.name, drift_rules[sign.rule].says,
                                    share(drift_rules[sign.rule].false_alarms)),
                        "  ! ");
    if (chart.signs.empty()) page += "Nothing shows that more than chance is at work\n";
    page += risk_in_words(chart);
    if (chart.coils.size() < 20)
        page += wrapped(fmt::format("The limits rest on {} coils: take them as provisional below twenty.",
                                    chart.coils.size()),
                        "");
    if (chart.without_reading > 0)
        page += fmt::format("{} rewinds have no such reading\n", chart.without_reading);
    return page;
}

} // namespace coilward
