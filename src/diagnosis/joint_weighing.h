#pragma once

#include "diagnosis/joint_finding.h"
#include "diagnosis/joint_mode.h"

#include <map>
#include <string>
#include <vector>

namespace coilward {

/// One way in which the whole's readings came about: a joint, each coil in a state, one piece of what may be
/// the matter with the joint.
struct JointExplanation {
    const JointFault* joint = nullptr;
    const CoilState* first = nullptr;
    const CoilState* second = nullptr;
    Component piece;         ///< the joint's severities
    double log_weight = 0.0; ///< ln of its weight beside the others; they do not sum to 1
};

/// Weighs how two coils are joined by the readings of the whole. All arguments outlive it.
class JointWeighing {
public:
    /// Weighs at once.
    JointWeighing(const PickupType&, const TwoCoils&, const Evidence& of_the_whole);

    /// Most probable first, without estimates; the priors where nothing explains a coil.
    std::vector<FaultProbability> joints() const;

    /// The whole's word on the coils: their posteriors are brought up to date.
    void update_coils() const;

    /// Heaviest first, all joints together; none of the joint that is in no list.
    const std::vector<JointExplanation>& explanations() const { return explanations_; }

    /// These states joined as the pickup type says, with that change. The states and the piece outlive it.
    JointHypothesis hypothesis(const CoilState& first, const CoilState& second, const Component& piece,
                               JointChange) const;

    /// That of the explanation, which outlives it.
    JointHypothesis hypothesis(const JointExplanation& e) const {
        return hypothesis(*e.first, *e.second, e.piece, e.joint->change);
    }

private:
    void weigh(const JointFault&, const std::vector<CoilState>& first, const std::vector<CoilState>& second,
               double log_offset);
    double weigh_pieces(const JointFault&, const Hypothesis& pieces, const CoilState& first,
                        const CoilState& second, double base);

    const PickupType& type_;
    const TwoCoils& coils_;
    const Evidence& evidence_;
    std::vector<CoilState> first_;
    std::vector<CoilState> second_;
    std::vector<CoilState> first_swapped_; ///< each as it would be with the other's model
    std::vector<CoilState> second_swapped_;
    double log_coupling_ = 0.0;
    double log_coupling_deviation_ = 1.0;
    std::vector<JointExplanation> explanations_;
    std::map<std::string, double> joint_weight_;
    std::map<const Fault*, double> first_weight_;
    std::map<const Fault*, double> second_weight_;
};

/// True where a coil was read by itself: without that nothing tells which coil is which.
bool any_coil_was_read_alone(const TwoCoils&);

} // namespace coilward
