#include "metrology/global_risk.h"

#include "metrology/conformity.h"
#include "metrology/normal.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include <boost/math/quadrature/gauss_kronrod.hpp>

namespace coilward {
namespace {

/// Beyond so many deviations from its mean, what a normal distribution holds is below 1e-15.
constexpr double all_deviations = 8.0;

/// ∫ of the density of the true value x times the probability that a measured value of it is accepted.
double accepted_between(const Process& process, double standard_uncertainty, Interval acceptance, double from,
                        double to) {
    from = std::max(from, process.mean - all_deviations * process.standard_deviation);
    to = std::min(to, process.mean + all_deviations * process.standard_deviation);
    if (!(from < to)) return 0.0;
    const auto weighed = [&](double x) {
        const double z = (x - process.mean) / process.standard_deviation;
        return normal_density(z) / process.standard_deviation *
               probability_within(x, standard_uncertainty, acceptance.low, acceptance.high);
    };
    return boost::math::quadrature::gauss_kronrod<double, 61>::integrate(weighed, from, to, 12, 1e-11);
}

void require_order(Interval interval) {
    if (!(interval.low < interval.high))
        throw std::invalid_argument("an interval's low end must lie below its high end");
}

} // namespace

GlobalRisk global_risk(const Process& process, double standard_uncertainty, Interval tolerance,
                       Interval acceptance) {
    if (!(process.standard_deviation > 0.0) || !(standard_uncertainty > 0.0))
        throw std::invalid_argument(
            "a process and a measurement without any spread leave no risk to compute");
    require_order(tolerance);
    require_order(acceptance);
    const double conforming =
        probability_within(process.mean, process.standard_deviation, tolerance.low, tolerance.high);
    const double infinity = std::numeric_limits<double>::infinity();
    const auto accepted = [&](double from, double to) {
        return accepted_between(process, standard_uncertainty, acceptance, from, to);
    };
    return {.conforming = conforming,
            .consumer = accepted(-infinity, tolerance.low) + accepted(tolerance.high, infinity),
            .producer = conforming - accepted(tolerance.low, tolerance.high)};
}

} // namespace coilward
