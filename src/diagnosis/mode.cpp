#include "diagnosis/mode.h"

#include "diagnosis/bordered.h"
#include "diagnosis/descent.h"
#include "diagnosis/landscape.h"

#include <algorithm>
#include <cmath>

namespace coilward {
namespace {

constexpr int most_steps = 12;
// From far away a step may gain this many times what its quadratic says.
constexpr double hoped_share = 3.0;
// Steps that a roaming search may take before it is asked whether there is hope.
constexpr int roaming_steps = 2;
// A search that gains less than this part of what its quadratic says, so many times in a row, or nothing at
// all, is stuck.
constexpr double least_share_gained = 0.1;
constexpr int most_poor_steps = 2;
// The pieces beside one where a search is stuck so far (in nats) below what matters do not lead there either.
constexpr double reach_of_neighbours = 300.0;
// Of −ln(posterior). What is left to gain then is added as the last quadratic says.
constexpr double settled_decrement = 0.2;
// A rough search goes nearer, since the next begins where it ends.
constexpr double rough_settled_decrement = 0.03;

using Here = Landscape::Here;

/// The step of those unknowns that may move, where others are held by their bounds (an active set; J.
/// Nocedal and S. J. Wright, Numerical Optimization, 2006, ch. 16.7).
Vector kept_inside(const Landscape& landscape, Vector move, const Vector& x, const Here& here) {
    if (landscape.within_bounds(x + move) == x + move) return move;
    constexpr int most_rounds = 3; // each can push others against theirs
    Here free = here;
    for (int round = 0; round < most_rounds; ++round) {
        bool held_more = false;
        for (Eigen::Index k = 0; k < x.size(); ++k) {
            if (!landscape.is_held(k, x, move)) continue;
            free.information.pin(k);
            free.gradient[k] = 0.0;
            held_more = true;
        }
        if (!held_more) break;
        move = BorderedCholesky(free.information).solve(-free.gradient);
    }
    return move;
}

/// Goes down from `start`. For the first `trusting_steps` the predicted gain says nothing against the search.
Mode search(const Landscape& landscape, const Values& start, const Patience& patience, int trusting_steps) {
    Vector x = landscape.point_near(start);
    Here here = landscape.objective(x);
    Mode mode;
    int poor_steps = 0; // one after the other
    for (int step = 0; step < most_steps; ++step) {
        const BorderedCholesky factored(here.information);
        mode.log_evidence = -here.cost - factored.half_log_determinant();
        const Vector freely = factored.solve(-here.gradient);
        const Vector move = kept_inside(landscape, freely, x, here);
        const double decrement = -0.5 * here.gradient.dot(move);
        const bool no_way_on =
            !std::isfinite(mode.log_evidence) || !std::isfinite(decrement) || landscape.strays(x, freely);
        const bool no_hope =
            step >= trusting_steps && mode.log_evidence + hoped_share * decrement < patience.hopeless;
        if (no_way_on || no_hope) return {.abandoned = true};
        if (decrement < (landscape.is_soft() ? rough_settled_decrement : settled_decrement)) {
            mode.log_evidence += decrement; // what is left to gain
            break;
        }
        const double before = here.cost;
        const bool moved = descend(landscape, x, here, landscape.shortened(move));
        poor_steps = before - here.cost < least_share_gained * decrement ? poor_steps + 1 : 0;
        const bool stuck = !moved || poor_steps >= most_poor_steps;
        if (stuck && mode.log_evidence < patience.hopeless - patience.reach_of_stuck)
            return {.abandoned = true};
        if (!moved) break;
    }
    mode.unknowns = x;
    mode.information = here.information;
    return mode;
}

/// By how much (in nats) the evidence can grow at most when a softness is taken away: where the prediction is
/// right the density of each number rises as its deviation shrinks, and elsewhere less.
double greatest_gain_without(double softness, const Evidence& evidence) {
    double gain = 0.0;
    for (const Probe& probe : evidence.probes)
        for (const Answer& answer : probe.answers)
            if (answer.state == State::ok)
                gain += std::log(std::hypot(1.0, softness * answer.value / answer.deviation));
    return gain;
}

} // namespace

Matrix covariance_of(const Mode& mode) {
    return inverse(mode.information.whole());
}

Vector covariance_with(Unknown unknown, const Mode& mode) {
    Vector unit = Vector::Zero(mode.unknowns.size());
    unit[static_cast<Eigen::Index>(unknown)] = 1.0;
    return BorderedCholesky(mode.information).solve(unit);
}

Mode find_mode(Primitive primitive, const Component& component, const CoilPrior& prior,
               const Evidence& evidence, const Values& start, double hopeless) {
    return search(Landscape(primitive, component, prior, evidence, 0.0), start,
                  {hopeless, reach_of_neighbours}, 0);
}

std::optional<Values> rough_place(Primitive primitive, const Component& component, const CoilPrior& prior,
                                  const Evidence& evidence, const Values& start, const Patience& patience) {
    constexpr double a_third = 0.33;
    const Patience for_rough{patience.hopeless - greatest_gain_without(a_third, evidence),
                             patience.reach_of_stuck};
    const Mode mode =
        search(Landscape(primitive, component, prior, evidence, a_third), start, for_rough, roaming_steps);
    if (mode.abandoned) return std::nullopt;
    return values_at(component, mode.unknowns);
}

std::optional<WideMode> roam(Primitive primitive, const Component& component, const CoilPrior& prior,
                             const Evidence& evidence, const Values& start, const Patience& patience) {
    const Mode mode =
        search(Landscape(primitive, component, prior, evidence, 0.0), start, patience, roaming_steps);
    if (mode.abandoned) return std::nullopt;
    return WideMode{values_at(component, mode.unknowns), mode.log_evidence};
}

} // namespace coilward
