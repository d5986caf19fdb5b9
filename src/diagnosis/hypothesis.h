#pragma once

#include "diagnosis/coil_prior.h"
#include "diagnosis/linear_algebra.h"
#include "diagnosis/unknown.h"
#include "rules/fault.h"

#include <array>
#include <vector>

namespace coilward {

/// A severity's unknown inside one component: normally distributed in its own measure.
struct SeverityPrior {
    Unknown unknown{};
    double mean = 0.0;      ///< in its measure
    double deviation = 1.0; ///< above 0
    bool is_piece = false;  ///< one of several side by side, so that it need not reach far
};

/// One piece of a fault's prior. A uniform distribution over a severity is represented by normal pieces side
/// by side, their spacing twice their deviation (the sum ripples by 1.4 %), so that a piece, the coil's
/// unknowns and the readings make one smooth peak, whose volume Laplace's method gives. A sharp reading then
/// needs no fine grid.
struct Component {
    static constexpr std::size_t most_severities = 4; ///< that are not fixed

    Values fixed{}; ///< value of every unknown that is not searched for
    std::array<SeverityPrior, most_severities> severities{}; ///< the first severity_count count
    std::size_t severity_count = 0;
    double log_weight = 0.0; ///< ln of its share in the fault's prior
};

/// A piece of one severity's distribution: normal, or a point where the deviation is 0.
struct Piece {
    double mean = 0.0; ///< in the unknown's measure, as its deviation
    double deviation = 0.0;
    double weight = 1.0;     ///< all of an axis sum to 1
    double log_weight = 0.0; ///< ln of the weight
};

/// One severity's pieces, from low to high.
struct Axis {
    Unknown unknown{};
    std::vector<Piece> pieces;
};

/// A fault as a sum of components: every combination of its severities' pieces, the first axis' piece
/// changing fastest. There are hundreds and few are looked at, so that each is made when it is.
struct Hypothesis {
    const Fault* fault = nullptr; ///< outlives it
    std::vector<Axis> axes;       ///< one a severity, in the file's order
    Values coil{};                ///< where the coil's unknowns lie before any reading
    Component roaming; ///< one component as wide as all of them together, to find out where to look
};

/// Throws std::invalid_argument where a fault's severities are more than a component holds or have no such
/// unknown.
Hypothesis hypothesis_of(const Fault&, const CoilPrior&);

/// The product of the numbers of pieces; 1 for a fault without severities.
std::size_t component_count(const Hypothesis&);

/// The index-th component, below component_count().
Component component_at(const Hypothesis&, std::size_t index);

/// The component whose pieces lie nearest to these severities.
std::size_t nearest_component(const Hypothesis&, const Values&);

/// The components that lie one piece further, up or down, on one axis.
std::vector<std::size_t> neighbours_of(const Hypothesis&, std::size_t component);

/// Where a search over the roaming component may begin: low and high on each axis that has several pieces and
/// reaches over decades.
std::vector<Values> starts_of(const Hypothesis&);

/// Where a search goes on from a rough place, which says little about a position in the winding: to both
/// sides of its middle, and if `ends_too` to its ends where the prior has them.
std::vector<Values> along_winding(const Hypothesis&, const Values& rough, bool ends_too);

/// Number of unknowns of a component: the coil's, and its severities.
std::size_t unknowns_of(const Component&);

/// The k-th of them, from 0.
Unknown unknown_at(const Component&, std::size_t k);

/// All values, with these unknowns in their places.
Values values_at(const Component&, const Vector& unknowns);

} // namespace coilward
