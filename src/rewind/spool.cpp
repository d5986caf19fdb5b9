#include "rewind/spool.h"

#include "metrology/half_width.h"
#include "wire/circle.h"
#include "wire/copper.h"
#include "wire/metric_wire.h"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr double copper_gram_per_m3 = 8.89e6; // IEC 60028
constexpr double enamel_gram_per_m3 = 1.4e6;  // polyurethane and polyvinyl acetal films; estimate

Uncertain anywhere_between(double low, double high) {
    return {(low + high) / 2.0, half_width_to_standard_uncertainty((high - low) / 2.0)};
}

/// The limits' spread about another middle.
Uncertain about(double middle, const WireLimits& limits) {
    const double relative = (limits.maximum - limits.minimum) / (2.0 * limits.nominal);
    return {middle, half_width_to_standard_uncertainty(relative * middle)};
}

std::string_view build_name(Build build) {
    return build == Build::single ? "single build" : "heavy build";
}

} // namespace

Spool with_measured(Spool spool, const SpoolMeasured& measured) {
    if (measured.ohm_per_metre_20) {
        spool.ohm_per_metre_20 = *measured.ohm_per_metre_20;
        spool.resistance_basis = Basis::published;
        spool.title += ", resistance measured";
    }
    if (measured.overall_diameter_m) {
        spool.overall_diameter_m = *measured.overall_diameter_m;
        spool.overall_basis = Basis::published;
        spool.title += ", diameter measured";
    }
    return spool;
}

Spool awg_spool(int awg, AwgDiameter which, Build build) {
    const auto limits = awg_resistance_limits_ohm_per_m(awg);
    const auto overall = awg_overall_diameter(awg, build);
    if (!limits || !overall)
        throw std::invalid_argument(fmt::format(
            "the limits of {} AWG are not known here; give a gauge from 36 to 46", awg_name(awg)));
    const double nominal_m = awg_diameter_m(awg, AwgDiameter::nominal);
    const double least_m = nominal_m + overall->minimum_increase_m.value_or(0.0);
    Spool spool{.title = fmt::format("{} AWG ({} diameter), {}", awg_name(awg),
                                     which == AwgDiameter::exact ? "exact" : "nominal", build_name(build)),
                .conductor_diameter_m = awg_diameter_m(awg, which)};
    spool.ohm_per_metre_20 = about(ohm_per_metre_20(spool.conductor_diameter_m), *limits);
    spool.resistance_basis = limits->basis;
    // Where the greatest is not in a source: twice the least increase, as it is about for the sizes that are.
    spool.overall_diameter_m =
        anywhere_between(least_m, overall->maximum_m.value_or(2.0 * least_m - nominal_m));
    spool.overall_basis = overall->maximum_m ? overall->basis : Basis::pattern;
    return spool;
}

Spool metric_spool(double nominal_diameter_m, Build build) {
    const auto wire = metric_wire(nominal_diameter_m);
    if (!wire)
        throw std::invalid_argument(fmt::format("a wire of {:g} mm is not in the table of IEC 60317-0-1 that "
                                                "is known here; give one of its sizes "
                                                "from 0.03 to 0.08 mm",
                                                nominal_diameter_m * 1e3));
    const WireLimits limits = metric_resistance_limits_ohm_per_m(*wire);
    const bool single = build == Build::single;
    return {.title = fmt::format("{:g} mm (IEC 60317-0-1), grade {}", wire->nominal_diameter_m * 1e3,
                                 single ? 1 : 2),
            .conductor_diameter_m = wire->nominal_diameter_m,
            .ohm_per_metre_20 = about(limits.nominal, limits),
            .overall_diameter_m = single ? anywhere_between(wire->grade1_minimum_m, wire->grade1_maximum_m)
                                         : anywhere_between(wire->grade2_minimum_m, wire->grade2_maximum_m),
            .resistance_basis = limits.basis};
}

std::vector<Spool> next_gauges(int awg, AwgDiameter which, Build build) {
    std::vector<Spool> spools;
    for (const int next : {awg - 1, awg + 1})
        if (awg_resistance_limits_ohm_per_m(next) && awg_overall_diameter(next, build))
            spools.push_back(awg_spool(next, which, build));
    return spools;
}

std::vector<Spool> next_metric_sizes(double nominal_diameter_m, Build build) {
    const auto sizes = metric_wires();
    const auto wire = metric_wire(nominal_diameter_m);
    std::vector<Spool> spools;
    if (!wire) return spools;
    const auto at = std::ranges::find(sizes, wire->nominal_diameter_m, &MetricWire::nominal_diameter_m);
    if (at + 1 != sizes.end()) spools.push_back(metric_spool((at + 1)->nominal_diameter_m, build));
    if (at != sizes.begin()) spools.push_back(metric_spool((at - 1)->nominal_diameter_m, build));
    return spools;
}

double gram_per_metre(double conductor_diameter_m, double overall_diameter_m) {
    const double copper_m2 = circle_area_m2(conductor_diameter_m);
    return copper_m2 * copper_gram_per_m3 +
           (circle_area_m2(overall_diameter_m) - copper_m2) * enamel_gram_per_m3;
}

} // namespace coilward
