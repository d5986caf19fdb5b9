#pragma once

namespace coilward {

/// The central 95 % of a healthy population: 2.5 % lie below `low`, 2.5 % above `high`. 0 < low < high.
struct Range {
    double low = 0.0;
    double high = 0.0;
};

} // namespace coilward
