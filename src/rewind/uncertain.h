#pragma once

namespace coilward {

/// A number and its standard uncertainty, in one unit.
struct Uncertain {
    double value = 0.0;
    double standard_uncertainty = 0.0;
};

} // namespace coilward
