#pragma once

#include "coil/elements.h"
#include "coil/impedance.h"

#include <array>
#include <type_traits>

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
/// leaves, with H the sum of all admittances to the frame, left_k and right_k the shares of it on either side
/// of cut k,
///     (current along the winding)_k + Σ_l (c + H · left_min(k,l) · right_max(k,l)) · drop_l = driven_k,
///     driven_k = into start · right_k − into finish · left_k,
/// where c is the admittance across the leads. Only driven_k depends on the port: all else is worked out once
/// for all ports of one frequency.
namespace coilward {

/// The turns: one run, or two that are coupled. `growth` is the derivative of a run's share by the fault's
/// place or size. Perfectly coupled turns have a mutual inductance of share_0 · share_1 · L0; leakage λ takes
/// λ · share_0 · share_1 from it and gives as much to each run's own, so that the whole keeps L0.
struct Runs {
    std::array<double, 2> share{1.0, 0.0}; ///< of all turns; they sum to 1
    std::array<double, 2> growth{};        ///< they sum to 0
    double leakage = 0.0;                  ///< λ, 0 to 1
};

/// Currents into the leads; what is left comes back from the frame.
struct Drive {
    double into_start = 1.0;   ///< ampere
    double into_finish = -1.0; ///< ampere

    /// Ampere; 0 where only the leads are connected.
    double into_frame() const { return into_start + into_finish; }
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

/// Ampere, volt and ohm, at one ampere through the port. Of a winding in one run only the first of two
/// counts.
template <typename Scalar>
struct Solution {
    std::array<Scalar, 2> current{};    ///< along each run
    std::array<Scalar, 2> from_frame{}; ///< voltage of each run's beginning to the frame
    std::array<Scalar, 2> to_frame{};   ///< and of its end
    Scalar across_leads{};              ///< voltage
    Scalar gap_voltage{};               ///< 0 where there is no gap
    Scalar shunt_current{};             ///< through what lies across run 1
    Scalar impedance{};                 ///< ohm
};

/// A winding in one run: one drop.
template <typename Scalar>
class WholeWinding {
public:
    /// `fault_across_leads` in siemens; 0 where nothing lies there.
    WholeWinding(const Elements<Scalar>& e, const Scalar& fault_across_leads)
        : winding_ohm_(e.resistance_ohm + e.coupled_ohm() + e.eddy_ohm),
          to_frame_siemens_(e.frame_siemens() + e.insulation_siemens) { // half of it at each lead
        const Scalar across = e.self_siemens() + fault_across_leads + 0.25 * to_frame_siemens_;
        along_winding_ = reciprocal<Scalar>(1.0 + across * winding_ohm_);
    }

    /// Ampere, volt and ohm, for these currents.
    Solution<Scalar> at(Drive drive) const {
        Solution<Scalar> s;
        s.current[0] = 0.5 * (drive.into_start - drive.into_finish) * along_winding_;
        s.across_leads = winding_ohm_ * s.current[0];
        s.from_frame[0] = 0.5 * s.across_leads;
        if (drive.into_frame() != 0.0)
            s.from_frame[0] += drive.into_frame() * reciprocal<Scalar>(to_frame_siemens_);
        s.to_frame[0] = s.from_frame[0] - s.across_leads;
        s.impedance = drive.into_start * s.from_frame[0] + drive.into_finish * s.to_frame[0];
        return s;
    }

private:
    Scalar winding_ohm_;
    Scalar to_frame_siemens_;
    Scalar along_winding_; ///< of a current through the leads: the part that takes the winding
};

/// The three cuts of a ladder of two runs: through run 0, the gap and run 1. Where all that leads to the
/// frame is the winding's own it has one phase, and its shares are plain numbers.
template <typename Scalar, typename Share>
struct Cuts {
    std::array<Share, 3> left{};  ///< the shares of H on the start's side; left_k + right_k = 1
    std::array<Share, 3> right{}; ///< the shares of H on the finish's side
    Scalar to_frame_siemens{};    ///< H
};

/// Of a winding without a leak.
template <typename Scalar>
Cuts<Scalar, double> cuts_of(const Runs& runs, const Elements<Scalar>& e) {
    const auto [a, b] = runs.share; // half of it at either end of a run
    return {{0.5 * a, a, a + 0.5 * b}, {0.5 * a + b, b, 0.5 * b}, e.frame_siemens() + e.insulation_siemens};
}

/// With a leak to the frame between the runs.
template <typename Scalar>
Cuts<Scalar, Scalar> cuts_of(const Runs& runs, const Elements<Scalar>& e, double leak_siemens) {
    const Scalar winding = e.frame_siemens() + e.insulation_siemens;
    const Scalar whole = winding + leak_siemens;
    const Scalar per_whole = reciprocal<Scalar>(whole);
    const Scalar first = 0.5 * runs.share[0] * winding * per_whole; // at either end of run 0
    const Scalar second = 0.5 * runs.share[1] * winding * per_whole;
    const Scalar leak = leak_siemens * per_whole;
    return {{first, 2.0 * first + leak, 2.0 * first + leak + second},
            {first + leak + 2.0 * second, 2.0 * second, second},
            whole};
}

/// No gap: its drop is 0.
struct Closed {};

/// What lies in the gap, an admittance, and how its drop follows from those of the runs: drop = at_rest ·
/// driven − per_drop_0 · drop_0 − per_drop_1 · drop_1.
template <typename Scalar>
struct Gap {
    Scalar with_0{}, with_1{}; ///< what couples it to the other cuts
    Scalar at_rest{}, per_drop_0{}, per_drop_1{};
};

/// A winding in two runs, with Closed or a Gap between them.
template <typename Scalar, typename Share, typename Between>
class PartedWinding {
public:
    /// Admittances in siemens: of what lies in the gap (not looked at where it is Closed), and across run 1.
    PartedWinding(const Runs& runs, const Elements<Scalar>& e, const Cuts<Scalar, Share>& cuts,
                  const Scalar& gap_siemens, double across_run_1_siemens)
        : cuts_(cuts) {
        const Scalar leads = e.self_siemens();
        const auto coupling = [&](std::size_t left, std::size_t right) -> Scalar {
            return leads + cuts.left[left] * cuts.right[right] * cuts.to_frame_siemens;
        };
        siemens_00_ = coupling(0, 0);
        siemens_01_ = coupling(0, 2);
        siemens_11_ = coupling(2, 2);
        if constexpr (has_gap) {
            gap_.with_0 = coupling(0, 1);
            gap_.with_1 = coupling(1, 2);
            gap_.at_rest = reciprocal<Scalar>(gap_siemens + coupling(1, 1));
            gap_.per_drop_0 = gap_.with_0 * gap_.at_rest;
            gap_.per_drop_1 = gap_.with_1 * gap_.at_rest;
            siemens_00_ -= gap_.with_0 * gap_.per_drop_0;
            siemens_01_ -= gap_.with_0 * gap_.per_drop_1;
            siemens_11_ -= gap_.with_1 * gap_.per_drop_1;
        }
        const auto [a, b] = runs.share;
        const Scalar flux = e.coupled_ohm() + e.eddy_ohm;
        const Scalar leaked = times_j<Scalar>(runs.leakage * a * b * e.coupled_reactance_ohm);
        first_ohm_ = a * e.resistance_ohm + a * a * flux + leaked;
        mutual_ohm_ = a * b * flux - leaked;
        second_ohm_ = b * e.resistance_ohm + b * b * flux + leaked;

        // (1 + Y Z) · current = driven, by Cramer's rule.
        const Scalar with_shunt = siemens_11_ + across_run_1_siemens;
        const Scalar m00 = 1.0 + siemens_00_ * first_ohm_ + siemens_01_ * mutual_ohm_;
        const Scalar m01 = siemens_00_ * mutual_ohm_ + siemens_01_ * second_ohm_;
        const Scalar m10 = siemens_01_ * first_ohm_ + with_shunt * mutual_ohm_;
        const Scalar m11 = 1.0 + siemens_01_ * mutual_ohm_ + with_shunt * second_ohm_;
        const Scalar scale = reciprocal<Scalar>(m00 * m11 - m01 * m10);
        inverse_00_ = m11 * scale;
        inverse_01_ = -m01 * scale;
        inverse_10_ = -m10 * scale;
        inverse_11_ = m00 * scale;
    }

    /// Ampere, volt and ohm, for these currents.
    Solution<Scalar> at(Drive drive) const {
        const auto driven = [&](std::size_t k) -> Share {
            return drive.into_start * cuts_.right[k] - drive.into_finish * cuts_.left[k];
        };
        // A gap takes part of what is driven, and is then complex.
        std::conditional_t<has_gap, Scalar, Share> driven_0 = driven(0);
        std::conditional_t<has_gap, Scalar, Share> driven_1 = driven(2);
        Scalar at_rest{};
        if constexpr (has_gap) {
            at_rest = driven(1) * gap_.at_rest;
            driven_0 -= gap_.with_0 * at_rest;
            driven_1 -= gap_.with_1 * at_rest;
        }
        Solution<Scalar> s;
        s.current = {driven_0 * inverse_00_ + driven_1 * inverse_01_,
                     driven_0 * inverse_10_ + driven_1 * inverse_11_};
        const Scalar drop_0 = first_ohm_ * s.current[0] + mutual_ohm_ * s.current[1];
        const Scalar drop_1 = mutual_ohm_ * s.current[0] + second_ohm_ * s.current[1];
        if constexpr (has_gap) s.gap_voltage = at_rest - gap_.per_drop_0 * drop_0 - gap_.per_drop_1 * drop_1;
        // From the sum of currents, since a short's drop is a small difference of large ones.
        s.shunt_current = driven_1 - s.current[1] - siemens_01_ * drop_0 - siemens_11_ * drop_1;
        s.from_frame[0] = cuts_.right[0] * drop_0 + cuts_.right[1] * s.gap_voltage + cuts_.right[2] * drop_1;
        if (drive.into_frame() != 0.0)
            s.from_frame[0] += drive.into_frame() * reciprocal<Scalar>(cuts_.to_frame_siemens);
        s.to_frame[0] = s.from_frame[0] - drop_0;
        s.from_frame[1] = s.to_frame[0] - s.gap_voltage;
        s.to_frame[1] = s.from_frame[1] - drop_1;
        s.across_leads = drop_0 + s.gap_voltage + drop_1;
        s.impedance = drive.into_start * s.from_frame[0] + drive.into_finish * s.to_frame[1];
        return s;
    }

private:
    static constexpr bool has_gap = !std::is_same_v<Between, Closed>;

    Cuts<Scalar, Share> cuts_;
    Between gap_{};
    Scalar siemens_00_, siemens_01_, siemens_11_; ///< between the runs' drops, without what is across run 1
    Scalar first_ohm_, mutual_ohm_, second_ohm_;
    Scalar inverse_00_, inverse_01_, inverse_10_, inverse_11_; ///< of (1 + Y Z)
};

/// `share` of one solution and the rest of the other: all but the impedance is linear in the drive.
template <typename Scalar>
Solution<Scalar> mixed(const Solution<Scalar>& one, const Solution<Scalar>& other, const Scalar& share) {
    const auto mix = [&](const Scalar& a, const Scalar& b) -> Scalar {
        return share * a + (1.0 - share) * b;
    };
    Solution<Scalar> s;
    for (std::size_t i = 0; i < 2; ++i) {
        s.current[i] = mix(one.current[i], other.current[i]);
        s.from_frame[i] = mix(one.from_frame[i], other.from_frame[i]);
        s.to_frame[i] = mix(one.to_frame[i], other.to_frame[i]);
    }
    s.across_leads = mix(one.across_leads, other.across_leads);
    s.gap_voltage = mix(one.gap_voltage, other.gap_voltage);
    s.shunt_current = mix(one.shunt_current, other.shunt_current);
    return s;
}

/// Both leads joined: the ampere divides so that no voltage is left between them.
template <typename Scalar, typename Winding>
Solution<Scalar> solve_joined_leads(const Winding& winding) {
    const Solution<Scalar> start = winding.at({1.0, 0.0});
    const Solution<Scalar> finish = winding.at({0.0, 1.0});
    const Scalar share = finish.across_leads * reciprocal<Scalar>(finish.across_leads - start.across_leads);
    Solution<Scalar> s = mixed(start, finish, share);
    s.impedance = s.from_frame[0];
    return s;
}

/// The winding seen at a port, one ampere through it.
template <typename Scalar, typename Winding>
Solution<Scalar> solve_at_port(const Winding& winding, CoilPort port) {
    return port == CoilPort::leads_frame ? solve_joined_leads<Scalar>(winding) : winding.at(drive_of(port));
}

} // namespace coilward
