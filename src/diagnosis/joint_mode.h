#pragma once

#include "diagnosis/evidence.h"
#include "diagnosis/hypothesis.h"
#include "diagnosis/linear_algebra.h"

namespace coilward {

/// One way a coil may be after its own readings: a fault at its severities, and how well the coil's unknowns
/// are known then.
struct CoilState {
    const Fault* fault = nullptr;
    double weight = 0.0; ///< among all states of this coil
    Values values{};     ///< at its mode, in their measures
    Matrix precision;    ///< of the first `coil_unknown_count`
};

/// Two coils, each in one state, and one piece of what may be the matter with their joint.
struct JointHypothesis {
    const CoilState& first;
    const CoilState& second;
    bool in_series = true;     ///< false: in parallel
    double log_coupling = 0.0; ///< ln|k|, its middle and its deviation
    double log_coupling_deviation = 1.0;
    double sense = 1.0;                 ///< +1 where the coils aid, −1 where one is reversed
    Primitive change = Primitive::none; ///< what the joint adds; none where it is sound or only reversed
    const Component& piece;             ///< the joint's own severities
};

/// ln ∫ prior · likelihood of the whole's readings, by Gauss-Newton steps and Laplace's method over both
/// coils' unknowns, the coupling and the joint's severities. The states' and the pieces' weights are not in
/// it.
double log_evidence(const JointHypothesis&, const Evidence& of_the_whole);

/// What a reading of the whole shows where coils, coupling and joint are most probable after `of_the_whole`
/// was read (at the middle of their states where that holds nothing), and its variance, without the meter's.
struct JointPrediction {
    double value = 0.0;    ///< SI unit of the answer's quantity
    double variance = 0.0; ///< in its square
};

/// In the middle of what is known of the two coils.
JointPrediction predict_whole(const JointHypothesis&, const Evidence& of_the_whole, const Answer&,
                              double frequency_hz);

} // namespace coilward
