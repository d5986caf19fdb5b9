#include "rewind/damage_condition.h"

#include "diagnosis/diagnosis.h"
#include "diagnosis/unknown.h"

#include <variant>

#include <fmt/format.h>

namespace coilward {
namespace {

/// What a primitive puts into the circuit of a sound coil is damage; what it only scales or turns over is
/// not.
bool is_damage(Primitive primitive) {
    return !std::holds_alternative<NoFault>(circuit_of(primitive, {}).fault);
}

} // namespace

HardCondition damage_condition(const Rules& rules, const CoilModel& model,
                               const std::vector<StoredReading>& of_the_coil) {
    Examination examination{.coil_model = model.id};
    for (const StoredReading& stored : of_the_coil) {
        examination.readings.push_back(stored.reading);
        examination.readings.back().coil.clear();
    }
    const Diagnosis diagnosis = diagnose(rules, examination);
    const Fault& leading = *rules.fault(diagnosis.verdict.fault);
    const std::string found =
        fmt::format("{} ({:.0f} %)", leading.title, 100.0 * diagnosis.verdict.probability);
    if (!is_damage(leading.primitive))
        return {"damage", Decision::pass, "likeliest by the same readings: " + found};
    if (diagnosis.decided) return {"damage", Decision::fail, "the same readings decide for: " + found};
    return {"damage", Decision::measure_better,
            "likeliest by the same readings: " + found + "; coilward diagnose says what to read next"};
}

} // namespace coilward
