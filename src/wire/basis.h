#pragma once

namespace coilward {

/// How well a figure about wire is founded.
enum class Basis {
    published,  ///< read in a published table
    pattern,    ///< follows the rule that the published neighbouring sizes follow
    unverified, ///< no source at hand: for orientation only, not for a decision
};

/// Lowest, nominal and highest value of a wire that its standard accepts.
struct WireLimits {
    double minimum = 0.0; ///< in the unit of whoever returns it
    double nominal = 0.0;
    double maximum = 0.0;
    Basis basis = Basis::published;
};

} // namespace coilward
