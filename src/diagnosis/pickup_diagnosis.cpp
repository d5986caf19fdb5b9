#include "diagnosis/pickup_diagnosis.h"

#include "diagnosis/coil_finding.h"
#include "diagnosis/joint_finding.h"
#include "toml/utf8.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace coilward {
namespace {

const PickupType& type_of(const Rules& rules, const Examination& examination) {
    const PickupType* type = rules.pickup_type(examination.pickup_type);
    if (!type)
        throw CannotDiagnose(fmt::format("pickup_type: \"{}\" is in no file under rules/pickups; \"coilward "
                                         "models\" lists those that are",
                                         shortened(examination.pickup_type)));
    std::vector<std::string> named;
    std::ranges::transform(type->coils, std::back_inserter(named), &CoilPlace::name);
    if (named.size() != 2)
        throw CannotDiagnose(fmt::format("pickup_type: \"{}\" has {} coil(s), expected a type of two; give a "
                                         "coil_model for a single coil",
                                         type->id, named.size()));
    for (const std::string& name : named)
        if (!examination.coils.contains(name))
            throw CannotDiagnose(fmt::format("coils.{}: missing, expected a coil model for each of {}",
                                             shortened(name),
                                             shortened(fmt::format("{}", fmt::join(named, " and ")))));
    for (const auto& [name, model] : examination.coils)
        if (std::ranges::find(named, name) == named.end())
            throw CannotDiagnose(fmt::format("coils.{}: the pickup type \"{}\" has no such coil, expected {}",
                                             shortened(name), type->id,
                                             shortened(fmt::format("{}", fmt::join(named, " and ")))));
    return *type;
}

constexpr const char* whole = "whole";

/// Those of a coil, with the temperatures that belong to all.
std::vector<Reading> readings_of(const std::vector<Reading>& readings, const std::string& coil) {
    std::vector<Reading> own;
    std::ranges::copy_if(readings, std::back_inserter(own), [&](const Reading& reading) {
        if (reading.coil == coil) return true;
        if (!reading.coil.empty() && reading.coil != whole) return false;
        return reading.quantity == Quantity::temperature || (coil == whole && reading.coil.empty());
    });
    return own;
}

/// What concerns one coil, taken for one of that model.
Examination part_of(const Examination& examination, const std::string& coil, const std::string& model) {
    Examination part{.coil_model = model,
                     .readings = readings_of(examination.readings, coil),
                     .earlier = examination.earlier};
    for (EarlierExamination& earlier : part.earlier)
        earlier.readings = readings_of(earlier.readings, coil);
    std::ranges::copy_if(examination.alike, std::back_inserter(part.alike),
                         [&](const AlikeCoil& alike) { return alike.coil == coil; });
    return part;
}

/// Of a pickup's coil: with its name, and held against how the pickup type wants it.
Diagnosis diagnosis_of_place(const Rules& rules, const CoilFinding& finding, const CoilPlace& place) {
    Diagnosis diagnosis = diagnosis_of(rules, finding);
    for (NextReading& next : diagnosis.next) {
        next.question.coil = place.name;
        next.reading = describe(next.question);
    }
    diagnosis.polarity = polarity_finding(finding.readings, &place);
    return diagnosis;
}

Diagnosis diagnosis_of_whole(const PickupType& type, const JointFinding& finding) {
    Diagnosis diagnosis;
    diagnosis.faults = finding.joints;
    diagnosis.verdict = finding.joints.front();
    diagnosis.decided = diagnosis.verdict.probability >= type.decide_joint_at;
    diagnosis.comparisons = finding.comparisons;
    diagnosis.reasons = finding.reasons;
    diagnosis.next = finding.next;
    const auto joint = std::ranges::find(type.joint_faults, diagnosis.verdict.fault, &JointFault::id);
    diagnosis.advice = joint->advice;
    diagnosis.cautions = joint->cautions;
    diagnosis.notes = finding.notes;
    if (finding.evidence.probes.empty())
        diagnosis.notes.emplace_back(
            "nothing was read of the whole: the joint is as common as the rules say");
    return diagnosis;
}

bool is_fine(const Rules& rules, const PickupType& type, const std::string& verdict) {
    const Fault* fault = rules.fault(verdict);
    if (fault && fault->primitive == Primitive::none) return true;
    return std::ranges::any_of(type.joint_faults, [&](const JointFault& joint) {
        return joint.id == verdict && joint.change == JointChange::none;
    });
}

/// The worst that leads. That nothing is the matter is decided where it is of the joint and of each coil.
void set_verdict(PickupDiagnosis& pickup, const Rules& rules, const PickupType& type) {
    const auto take = [&](const std::string& coil, const Diagnosis& diagnosis) {
        pickup.verdict_coil = coil;
        pickup.verdict = diagnosis.verdict;
        pickup.decided = diagnosis.decided;
    };
    take(whole, pickup.whole);
    bool fine = is_fine(rules, type, pickup.whole.verdict.fault);
    for (const auto& [name, diagnosis] : pickup.coils) {
        if (is_fine(rules, type, diagnosis.verdict.fault)) continue;
        if (fine || diagnosis.verdict.probability > pickup.verdict.probability) take(name, diagnosis);
        fine = false;
    }
    if (fine)
        for (const auto& [name, diagnosis] : pickup.coils)
            pickup.decided = pickup.decided && diagnosis.decided;
}

} // namespace

PickupDiagnosis diagnose_pickup(const Rules& rules, const Examination& examination) {
    const PickupType& type = type_of(rules, examination);
    const auto found = [&](std::size_t coil, std::size_t model) {
        return finding_of(
            rules, part_of(examination, type.coils[coil].name, examination.coils.at(type.coils[model].name)));
    };
    std::array<CoilFinding, 2> as_named{found(0, 0), found(1, 1)};
    const std::array<CoilFinding, 2> swapped{found(0, 1), found(1, 0)};
    const JointFinding joint =
        joint_finding(rules, type, {{&as_named[0], &as_named[1]}, {&swapped[0], &swapped[1]}},
                      readings_of(examination.readings, whole));

    PickupDiagnosis pickup{.id = examination.id, .pickup_type = type.id};
    for (std::size_t i = 0; i < as_named.size(); ++i)
        pickup.coils.emplace_back(type.coils[i].name, diagnosis_of_place(rules, as_named[i], type.coils[i]));
    pickup.whole = diagnosis_of_whole(type, joint);
    set_verdict(pickup, rules, type);
    return pickup;
}

} // namespace coilward
