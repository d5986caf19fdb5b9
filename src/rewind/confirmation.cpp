#include "rewind/confirmation.h"

#include "rewind/checked_quantity.h"
#include "rewind/hard_condition.h"
#include "rewind/implied_turns.h"
#include "rewind/temperature.h"

#include <algorithm>

namespace coilward {
namespace {

Decision worse(Decision one, Decision other) {
    if (one == Decision::fail || other == Decision::fail) return Decision::fail;
    return one == Decision::pass ? other : one;
}

Decision decision_of(const Confirmation& confirmation) {
    if (confirmation.checked.empty()) return Decision::measure_better;
    Decision decision = Decision::pass;
    for (const Checked& checked : confirmation.checked)
        decision = worse(decision, checked.conformity.decision);
    for (const HardCondition& condition : confirmation.conditions)
        decision = worse(decision, condition.decision);
    return decision;
}

} // namespace

std::vector<StoredReading> current_readings_of_coil(const std::vector<StoredReading>& readings,
                                                    const std::string& coil) {
    std::vector<StoredReading> own = current_readings(readings);
    std::erase_if(own, [&](const StoredReading& stored) {
        return stored.reading.coil != coil && stored.reading.quantity != Quantity::temperature;
    });
    return own;
}

Confirmation confirm(const Pickup& pickup, const Visit& visit, const std::string& coil,
                     const std::vector<StoredReading>& readings, const std::vector<Requirement>& requirements,
                     const ConfirmationRule& rule, const CoilModel* model,
                     const std::optional<HardCondition>& damage) {
    Confirmation confirmation{.pickup = pickup, .coil = coil, .visit = visit, .rule = rule};
    confirmation.readings = current_readings_of_coil(readings, coil);
    const auto read = temperature_in(confirmation.readings);
    confirmation.temperature_was_read = read.has_value();
    confirmation.temperature_c = read ? *read : rule.temperature_c.value_or(usual_room_c);
    for (const Requirement& requirement : requirements) {
        Checked checked = check(requirement, confirmation.readings, coil, confirmation.temperature_c, rule);
        if (checked.reading || requirement.must_be_read) confirmation.checked.push_back(std::move(checked));
    }
    confirmation.conditions = hard_conditions(confirmation.readings, coil, rule);
    if (damage) confirmation.conditions.push_back(*damage);
    confirmation.turns = turns_check(confirmation.checked, model, rule.counted_turns);
    confirmation.decision = decision_of(confirmation);
    return confirmation;
}

} // namespace coilward
