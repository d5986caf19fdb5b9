#pragma once

#include "coil/impedance.h"

namespace coilward {

/// Two coils of one pickup, joined, each with at most one fault of its own.
struct JoinedCoils {
    Coil first;
    FaultElement first_fault;
    Coil second;
    FaultElement second_fault;
    bool in_series = true; ///< false: in parallel
    double coupling = 0.0; ///< M / √(L1 L2), −1 to 1; positive where the coils' fluxes aid through the joint
    FaultElement joint;    ///< a SeriesElement in the joint, a Load across the whole, or NoFault
};

/// The whole's impedance in ohm, the two coils' own, and how the whole moves with them.
struct JoinedImpedance {
    std::complex<double> impedance_ohm;
    ImpedanceWithGradient first;          ///< alone, at its own leads
    ImpedanceWithGradient second;         ///< likewise
    std::complex<double> by_first;        ///< dZ/dZ1, a ratio
    std::complex<double> by_second;       ///< dZ/dZ2, a ratio
    std::complex<double> by_log_coupling; ///< ohm per unit of ln|k|
};

/// Seen at the whole's two leads, from 0 (direct current) to 20 kHz. Coupled circuits, with the coils'
/// impedance matrix Z11, Z12, Z22:
///   in series    Z = Z11 + Z22 + 2 Z12,
///   in parallel  Z = (Z11 Z22 − Z12²) / (Z11 + Z22 − 2 Z12).
/// The matrix is exact for sound coils, whose windings couple behind their self-capacitances. A fault changes
/// Z12 by as much as the mean current of the coil's turns (the flux of one coil crosses all turns of the
/// other alike); what coupling adds to Z11 and Z22, of second order in it, is taken as for sound coils: 0.4 %
/// at 1 kHz where 14 % of one coil are shorted and the coupling is 0.15, far off beside the resonance. An
/// element in the joint adds to the second coil. The derivatives leave out how that addition itself moves.
/// Throws as impedance() does.
JoinedImpedance impedance_of(const JoinedCoils&, double frequency_hz);

} // namespace coilward
