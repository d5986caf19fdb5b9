#pragma once

#include "coil/elements.h"
#include "coil/impedance.h"

#include <array>
#include <cstddef>
#include <optional>

/// The network of one coil, solved in closed form. From the start lead to the finish lead lie one or two runs
/// of turns, and between two runs perhaps a gap:
///
///     start ──run 0── inner ──gap── beyond ──run 1── finish
///
/// with admittances to the frame at each place, one across the leads and one across run 1. The unknowns are
/// the voltage drops along this ladder, not the voltages to the frame: a hundredth of an ohm beside the
/// insulation's gigaohms then keeps its digits.
///
/// A cut between two neighbouring places parts the network in two. Eliminating the frame (star to delta)
/// leaves, with H the sum of all admittances to the frame, left_k and right_k those on either side of cut k,
///     (current along the winding)_k + Σ_l (c + left_min(k,l) · right_max(k,l) / H) · drop_l = driven_k,
///     driven_k = (into start · right_k − into finish · left_k) / H,
/// where c is the admittance across the leads.
namespace coilward {

/// The turns: one run, or two that are coupled. `growth` is the derivative of a run's share by the fault's
/// place or size. Perfectly coupled turns have a mutual inductance of share_0 · share_1 · L0; leakage λ takes
/// λ · share_0 · share_1 from it and gives as much to each run's own, so that the whole keeps L0.
struct Runs {
    std::size_t count = 1;
    std::array<double, 2> share{1.0, 0.0};
    std::array<double, 2> growth{};
    double leakage = 0.0;
};

/// What a fault adds to the ladder.
template <typename Scalar>
struct FaultBranches {
    Scalar across_leads{};
    Scalar across_run_1{};
    Scalar inner_to_frame{};
    std::optional<Scalar> gap; ///< none: inner and beyond are one place
};

/// Currents into the leads; what is left comes back from the frame.
struct Drive {
    double into_start = 1.0;
    double into_finish = -1.0;
};

/// One ampere into the port. How joined leads share theirs follows from the network.
inline Drive drive_of(CoilPort port) {
    switch (port) {
    case CoilPort::start_frame:
        return {1.0, 0.0};
    case CoilPort::finish_frame:
        return {0.0, 1.0};
    case CoilPort::leads:
    case CoilPort::leads_frame:
        break;
    }
    return {1.0, -1.0};
}

/// At one ampere through the port.
template <typename Scalar>
struct Solution {
    std::array<Scalar, 2> current{};    ///< along each run
    std::array<Scalar, 2> from_frame{}; ///< voltage of each run's beginning to the frame
    std::array<Scalar, 2> to_frame{};   ///< and of its end
    Scalar gap_voltage{};
    Scalar run_1_shunt_current{}; ///< through what lies across run 1
    Scalar impedance{};

    Scalar across_leads(const Runs& runs) const { return from_frame[0] - to_frame[runs.count - 1]; }
};

template <typename Scalar>
struct RunImpedances {
    Scalar first;
    Scalar mutual;
    Scalar second;
};

template <typename Scalar>
RunImpedances<Scalar> impedances_of(const Runs& runs, const Elements<Scalar>& e) {
    const auto [a, b] = runs.share;
    const Scalar flux = e.coupled_ohm + e.eddy_ohm;
    const Scalar leaked = runs.leakage * a * b * e.coupled_ohm;
    return {a * e.resistance_ohm + a * a * flux + leaked, a * b * flux - leaked,
            b * e.resistance_ohm + b * b * flux + leaked};
}

/// One run: one drop.
template <typename Scalar>
Solution<Scalar> solve_whole(const Elements<Scalar>& e, const FaultBranches<Scalar>& fault, Drive drive) {
    const Scalar to_frame = e.frame_siemens + e.insulation_siemens; // half of it at each lead
    const Scalar across = e.self_siemens + fault.across_leads + 0.25 * to_frame;
    const Scalar winding = e.resistance_ohm + e.coupled_ohm + e.eddy_ohm;
    Solution<Scalar> s;
    s.current[0] = 0.5 * (drive.into_start - drive.into_finish) / (1.0 + across * winding);
    const Scalar drop = winding * s.current[0];
    s.from_frame[0] = (drive.into_start + drive.into_finish) / to_frame + 0.5 * drop;
    s.to_frame[0] = s.from_frame[0] - drop;
    s.impedance = drive.into_start * s.from_frame[0] + drive.into_finish * s.to_frame[0];
    return s;
}

/// The three cuts of a ladder of two runs: through run 0, the gap and run 1.
template <typename Scalar>
struct Cuts {
    std::array<Scalar, 3> left{};
    std::array<Scalar, 3> right{};
    std::array<Scalar, 3> driven{};
    Scalar whole{};
};

template <typename Scalar>
Cuts<Scalar> cuts_of(const Runs& runs, const Elements<Scalar>& e, const FaultBranches<Scalar>& fault,
                     Drive drive) {
    const Scalar half = 0.5 * (e.frame_siemens + e.insulation_siemens);
    const Scalar first = runs.share[0] * half; // at either end of run 0
    const Scalar second = runs.share[1] * half;
    Cuts<Scalar> cuts;
    cuts.left = {first, 2.0 * first + fault.inner_to_frame, 2.0 * first + fault.inner_to_frame + second};
    cuts.right = {first + fault.inner_to_frame + 2.0 * second, 2.0 * second, second};
    cuts.whole = cuts.left[1] + cuts.right[1];
    for (std::size_t k = 0; k < 3; ++k)
        cuts.driven[k] = (drive.into_start * cuts.right[k] - drive.into_finish * cuts.left[k]) / cuts.whole;
    return cuts;
}

/// What must flow along the two runs: current_k + Σ_l siemens_kl · drop_l = driven_k.
template <typename Scalar>
struct TwoDrops {
    Scalar siemens_00, siemens_01, siemens_11;
    Scalar driven_0, driven_1;
};

/// The gap's drop follows from those of the runs: gap_voltage = at_rest − per_drop_0 · drop_0 − per_drop_1 ·
/// drop_1.
template <typename Scalar>
struct GapVoltage {
    Scalar at_rest{}, per_drop_0{}, per_drop_1{};
};

template <typename Scalar>
GapVoltage<Scalar> eliminate_gap(TwoDrops<Scalar>& drops, const Cuts<Scalar>& cuts, const Scalar& leads,
                                 const Scalar& gap) {
    const Scalar with_0 = leads + cuts.left[0] * cuts.right[1] / cuts.whole;
    const Scalar with_1 = leads + cuts.left[1] * cuts.right[2] / cuts.whole;
    const Scalar ohm = 1.0 / (gap + leads + cuts.left[1] * cuts.right[1] / cuts.whole);
    const GapVoltage<Scalar> voltage{cuts.driven[1] * ohm, with_0 * ohm, with_1 * ohm};
    drops.siemens_00 -= with_0 * voltage.per_drop_0;
    drops.siemens_01 -= with_0 * voltage.per_drop_1;
    drops.siemens_11 -= with_1 * voltage.per_drop_1;
    drops.driven_0 -= with_0 * voltage.at_rest;
    drops.driven_1 -= with_1 * voltage.at_rest;
    return voltage;
}

template <typename Scalar>
Solution<Scalar> solve_parted(const Runs& runs, const Elements<Scalar>& e, const FaultBranches<Scalar>& fault,
                              Drive drive) {
    const RunImpedances<Scalar> z = impedances_of(runs, e);
    const Cuts<Scalar> cuts = cuts_of(runs, e, fault, drive);
    const Scalar leads = e.self_siemens + fault.across_leads;
    TwoDrops<Scalar> drops{leads + cuts.left[0] * cuts.right[0] / cuts.whole,
                           leads + cuts.left[0] * cuts.right[2] / cuts.whole,
                           leads + cuts.left[2] * cuts.right[2] / cuts.whole, cuts.driven[0], cuts.driven[2]};
    GapVoltage<Scalar> gap;
    if (fault.gap) gap = eliminate_gap(drops, cuts, leads, *fault.gap);

    // (1 + Y Z) · current = driven, by Cramer's rule.
    const Scalar with_shunt = drops.siemens_11 + fault.across_run_1;
    const Scalar m00 = 1.0 + drops.siemens_00 * z.first + drops.siemens_01 * z.mutual;
    const Scalar m01 = drops.siemens_00 * z.mutual + drops.siemens_01 * z.second;
    const Scalar m10 = drops.siemens_01 * z.first + with_shunt * z.mutual;
    const Scalar m11 = 1.0 + drops.siemens_01 * z.mutual + with_shunt * z.second;
    const Scalar scale = 1.0 / (m00 * m11 - m01 * m10);
    Solution<Scalar> s;
    s.current = {(drops.driven_0 * m11 - drops.driven_1 * m01) * scale,
                 (drops.driven_1 * m00 - drops.driven_0 * m10) * scale};

    const Scalar drop_0 = z.first * s.current[0] + z.mutual * s.current[1];
    const Scalar drop_1 = z.mutual * s.current[0] + z.second * s.current[1];
    s.gap_voltage = gap.at_rest - gap.per_drop_0 * drop_0 - gap.per_drop_1 * drop_1;
    // From the sum of currents, since a short's drop is a small difference of large ones.
    s.run_1_shunt_current =
        drops.driven_1 - s.current[1] - drops.siemens_01 * drop_0 - drops.siemens_11 * drop_1;
    s.from_frame[0] = (drive.into_start + drive.into_finish + cuts.right[0] * drop_0 +
                       cuts.right[1] * s.gap_voltage + cuts.right[2] * drop_1) /
                      cuts.whole;
    s.to_frame[0] = s.from_frame[0] - drop_0;
    s.from_frame[1] = s.to_frame[0] - s.gap_voltage;
    s.to_frame[1] = s.from_frame[1] - drop_1;
    s.impedance = drive.into_start * s.from_frame[0] + drive.into_finish * s.to_frame[1];
    return s;
}

template <typename Scalar>
Solution<Scalar> solve_at_unit_current(const Runs& runs, const Elements<Scalar>& e,
                                       const FaultBranches<Scalar>& fault, Drive drive) {
    return runs.count == 1 ? solve_whole(e, fault, drive) : solve_parted(runs, e, fault, drive);
}

/// `share` of one solution and the rest of the other: all but the impedance is linear in the drive.
template <typename Scalar>
Solution<Scalar> mixed(const Solution<Scalar>& one, const Solution<Scalar>& other, const Scalar& share) {
    const auto mix = [&](const Scalar& a, const Scalar& b) { return share * a + (1.0 - share) * b; };
    Solution<Scalar> s;
    for (std::size_t i = 0; i < 2; ++i) {
        s.current[i] = mix(one.current[i], other.current[i]);
        s.from_frame[i] = mix(one.from_frame[i], other.from_frame[i]);
        s.to_frame[i] = mix(one.to_frame[i], other.to_frame[i]);
    }
    s.gap_voltage = mix(one.gap_voltage, other.gap_voltage);
    s.run_1_shunt_current = mix(one.run_1_shunt_current, other.run_1_shunt_current);
    return s;
}

/// Both leads joined: the ampere divides so that no voltage is left between them.
template <typename Scalar>
Solution<Scalar> solve_joined_leads(const Runs& runs, const Elements<Scalar>& e,
                                    const FaultBranches<Scalar>& fault) {
    const auto start = solve_at_unit_current(runs, e, fault, {1.0, 0.0});
    const auto finish = solve_at_unit_current(runs, e, fault, {0.0, 1.0});
    const Scalar by_start = start.across_leads(runs);
    const Scalar by_finish = finish.across_leads(runs);
    Solution<Scalar> s = mixed(start, finish, Scalar(by_finish / (by_finish - by_start)));
    s.impedance = s.from_frame[0];
    return s;
}

template <typename Scalar>
Solution<Scalar> solve_at_port(const Runs& runs, const Elements<Scalar>& e,
                               const FaultBranches<Scalar>& fault, CoilPort port) {
    if (port == CoilPort::leads_frame) return solve_joined_leads(runs, e, fault);
    return solve_at_unit_current(runs, e, fault, drive_of(port));
}

} // namespace coilward
