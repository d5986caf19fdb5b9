#pragma once

namespace coilward {

/// How the true values of what a bench makes are spread, as a normal distribution. One unit serves for this,
/// the intervals and the uncertainty.
struct Process {
    double mean = 0.0;
    double standard_deviation = 0.0; ///< above 0
};

/// An interval; an end may be infinite.
struct Interval {
    double low = 0.0;
    double high = 0.0;
};

/// What a decision rule does to everything that is made (JCGM 106:2012, clause 9.5): shares of all items.
struct GlobalRisk {
    double conforming = 0.0; ///< truly within the tolerance
    double consumer = 0.0;   ///< accepted, though not conforming
    double producer = 0.0;   ///< rejected, though conforming
};

/// Of items that are accepted where their measured value lies in `acceptance`, measured with a normal error
/// of that standard uncertainty. By quadrature, to better than 1e-9. Throws std::invalid_argument where the
/// process's deviation or the uncertainty is not above 0, or an interval's ends are in the wrong order.
GlobalRisk global_risk(const Process&, double standard_uncertainty, Interval tolerance, Interval acceptance);

} // namespace coilward
