#include "rules/joint_table.h"

#include "rules/joint_element.h"
#include "rules/severity_table.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::array<Word<JointChange>, 6> changes{{
    {"none", JointChange::none},
    {"coil-reversed", JointChange::coil_reversed},
    {"coils-swapped", JointChange::coils_swapped},
    {"open", JointChange::open},
    {"load", JointChange::load},
    {"unlisted", JointChange::unlisted},
}};

JointFault read_joint_fault(TableReader table) {
    JointFault joint;
    joint.id = table.text("id", Need::required).value_or("");
    joint.title = table.text("title", Need::required).value_or("");
    joint.prior = table.number("prior", Need::required, measures::prior).value_or(0.0);
    if (const auto change = table.word<JointChange>("change", Need::required, changes)) {
        joint.change = *change;
        joint.severities = read_joint_severities(table, primitive_of(*change));
    }
    joint.advice = table.texts("advice", Need::required);
    joint.cautions = table.texts("cautions", Need::optional);
    table.refuse_unknown_keys();
    return joint;
}

void require_exactly_one(TableReader& pickup, const std::vector<JointFault>& joints,
                         const Word<JointChange>& change) {
    const auto found = std::ranges::count(joints, change.kind, &JointFault::change);
    if (found != 1)
        pickup.complain(
            ComplaintKind::not_exactly_one_joint, "joint",
            fmt::format("found {} with change = \"{}\", expected exactly one", found, change.text));
}

} // namespace

std::vector<JointFault> read_joint_faults(TableReader& pickup) {
    std::vector<JointFault> joints;
    auto tables = pickup.tables("joint", Need::required);
    for (TableReader& table : tables) {
        joints.push_back(read_joint_fault(table));
        if (std::ranges::count(joints, joints.back().id, &JointFault::id) > 1)
            table.complain(ComplaintKind::said_twice, "id",
                           "found the id of another joint, expected one of its own");
    }
    if (joints.empty()) return joints;
    require_exactly_one(pickup, joints, changes.front());
    require_exactly_one(pickup, joints, changes.back());
    return joints;
}

} // namespace coilward
