#include "rewind/hard_condition.h"

#include "rewind/checked_quantity.h"
#include "units/engineering.h"

#include <limits>

#include <fmt/format.h>

namespace coilward {
namespace {

HardCondition continuity(const std::vector<StoredReading>& readings, const std::string& coil) {
    const StoredReading* stored = answer_to({.quantity = Quantity::dc_resistance}, readings, coil);
    if (stored == nullptr) return {"continuity", Decision::measure_better, "DC resistance was not read"};
    switch (stored->reading.state) {
    case State::ok:
        return {"continuity", Decision::pass, "a steady DC resistance"};
    case State::over_range:
        return {"continuity", Decision::fail, "the ohmmeter showed over range"};
    case State::unstable:
        return {"continuity", Decision::fail, "the DC resistance wandered"};
    case State::under_range:
        return {"continuity", Decision::measure_better, "the ohmmeter's range was too high"};
    }
    return {"continuity"};
}

HardCondition polarity(const std::vector<StoredReading>& readings, const std::string& coil) {
    const StoredReading* stored = answer_to({.quantity = Quantity::polarity}, readings, coil);
    if (stored == nullptr || !stored->reading.polarity)
        return {"polarity", Decision::measure_better,
                "not tested; bring steel near a pole and watch the kick"};
    switch (*stored->reading.polarity) {
    case Polarity::as_expected:
        return {"polarity", Decision::pass, "the kick has the sign that the pickup type expects"};
    case Polarity::reversed:
        return {"polarity", Decision::fail, "the kick is reversed"};
    case Polarity::none:
        return {"polarity", Decision::fail, "no kick"};
    }
    return {"polarity"};
}

Decision insulation_of(const Reading& reading, const ConfirmationRule& rule) {
    switch (reading.state) {
    case State::over_range:
        return reading.limit && *reading.limit >= rule.least_insulation_ohm ? Decision::pass
                                                                            : Decision::measure_better;
    case State::under_range:
        return Decision::fail;
    case State::unstable:
        return Decision::measure_better;
    case State::ok:
        break;
    }
    if (!reading.value || !reading.standard_uncertainty) return Decision::measure_better;
    return conformity(*reading.value, *reading.standard_uncertainty, rule.least_insulation_ohm,
                      std::numeric_limits<double>::infinity(), rule.conformance_probability)
        .decision;
}

std::string seen(const Reading& reading) {
    if (reading.state == State::over_range)
        return reading.limit ? "over " + engineering(*reading.limit, "ohm", 3)
                             : "over range, of which it is not known";
    if (reading.state != State::ok || !reading.value) return std::string(name(reading.state));
    return engineering(*reading.value, "ohm", 3);
}

/// The worst of all readings from the coil to metal.
HardCondition insulation(const std::vector<StoredReading>& readings, const std::string& coil,
                         const ConfirmationRule& rule) {
    const std::string least = engineering_shortest(rule.least_insulation_ohm, "ohm");
    HardCondition worst{"insulation", Decision::measure_better,
                        fmt::format("not read; at least {} from a lead to the frame", least)};
    bool any = false;
    for (const StoredReading& stored : readings) {
        const Reading& reading = stored.reading;
        if (reading.quantity != Quantity::insulation_resistance || reading.coil != coil) continue;
        const Decision decision = insulation_of(reading, rule);
        const bool worse = decision == Decision::fail ||
                           (decision == Decision::measure_better && worst.decision == Decision::pass);
        if (any && !worse) continue;
        worst = {"insulation", decision,
                 fmt::format("{} {}; at least {}", name(reading.between), seen(reading), least)};
        any = true;
    }
    return worst;
}

} // namespace

std::vector<HardCondition> hard_conditions(const std::vector<StoredReading>& readings,
                                           const std::string& coil, const ConfirmationRule& rule) {
    return {continuity(readings, coil), polarity(readings, coil), insulation(readings, coil, rule)};
}

} // namespace coilward
