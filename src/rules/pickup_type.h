#pragma once

#include "rules/coil_model.h"
#include "rules/fault.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// How the coils of a pickup are connected.
enum class Join { single, series, parallel };

/// One coil's place in a pickup.
struct CoilPlace {
    std::string name;                ///< "slug", "screw", "upper", ...; "coil" where there is only one
    std::vector<std::string> models; ///< ids of coil models that are usual here; may be empty
    int winding_sense = 1; ///< +1 clockwise, -1 counter-clockwise, seen from the string side, start to finish
    int magnet_polarity = 1; ///< +1 north up, -1 south up; 0 where the coil has no pole of its own
};

/// What a quantity may be at all for a coil of this type: used where a coil model is silent. A pickup type
/// has all of them.
struct AllowedRanges {
    std::optional<Range> turns;
    std::optional<Range> inductance_h;        ///< at 1 kHz, series
    std::optional<Range> inductance_per_ohm2; ///< L / R², henry per ohm²: ties an unknown L to a known R
    std::optional<Range> quality_factor;      ///< at 1 kHz
    std::optional<Range> self_capacitance_f;  ///< across the leads
    std::optional<Range> frame_capacitance_f; ///< from the whole coil to the frame
};

/// How the joint between the coils of a pickup may differ from what it should be.
enum class JointChange {
    none,          ///< joined as the pickup type says
    coil_reversed, ///< the leads of one coil exchanged, or its magnet: the coupling changes its sign
    coils_swapped, ///< each coil where another belongs
    open,          ///< series_resistance ∥ series_capacitance in the joint
    load,          ///< controls or cable across the whole: as Primitive::load
    unlisted,      ///< none of the above
};

/// One answer to the question how the coils are joined.
struct JointFault {
    std::string id;    ///< among the joints of this type
    std::string title; ///< for people
    JointChange change = JointChange::none;
    double prior = 0.0; ///< how often it comes to the bench, relative to the others of this pickup type
    std::vector<Severity> severities;  ///< of the open joint and of the load; else none
    std::vector<std::string> advice;   ///< in the order of doing
    std::vector<std::string> cautions; ///< what can hurt while doing it; may be empty
};

/// How the coils of a pickup are joined and what polarity is right, read from rules/pickups/ID.toml.
struct PickupType {
    std::string id;     ///< the name of its file
    std::string title;  ///< for people
    std::string source; ///< where its numbers come from
    std::string file;   ///< as complaints name it
    Join join = Join::single;
    std::vector<CoilPlace> coils; ///< one, or two that are joined
    /// Coupling coefficient between two coils of the pickup, 0 to 1; its sign follows from senses and
    /// magnets.
    std::optional<Range> coupling;
    AllowedRanges allows;
    std::vector<JointFault> joint_faults; ///< empty where there is one coil
    double decide_joint_at = 0.95; ///< probability from which the verdict on the joint counts as decided
};

} // namespace coilward
