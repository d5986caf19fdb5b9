#include "report/verdict_words.h"

#include "units/engineering.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

bool is_share(std::string_view name) {
    return name == "shorted_fraction";
}

bool is_resistance(std::string_view name) {
    return name.ends_with("_resistance");
}

std::string spaced(std::string name) {
    for (char& c : name)
        if (c == '_') c = ' ';
    return name;
}

/// No one counts single turns among thousands: two digits, and all of them below a hundred.
std::string turns_in_words(double turns) {
    const double digits = std::floor(std::log10(std::max(turns, 1.0)));
    const double step = std::pow(10.0, std::max(0.0, digits - 1.0));
    return fmt::format("{:.0f}", std::round(turns / step) * step);
}

std::string with_range(const Counted& turns) {
    return fmt::format("{} turns (90 %: {} to {})", turns_in_words(turns.value), turns_in_words(turns.low),
                       turns_in_words(turns.high));
}

} // namespace

std::string title_of(const std::string& fault, const Rules& rules) {
    const Fault* found = rules.fault(fault);
    return found ? found->title : fault;
}

std::string percent(double share) {
    if (share >= 0.995 && share < 1.0) return "> 99 %";
    return share < 0.01 ? "< 1 %" : fmt::format("{:.0f} %", 100.0 * share);
}

std::string estimate_in_words(const Estimate& e) {
    const auto shown = [&](double value) {
        if (is_share(e.name)) return fmt::format("{:.2g} %", 100.0 * value);
        if (is_resistance(e.name)) return engineering(value, "ohm", 3);
        return fmt::format("{:.2f}", value);
    };
    std::string line =
        fmt::format("{}: {} (90 %: {} to {})", spaced(e.name), shown(e.value), shown(e.low), shown(e.high));
    if (e.name.ends_with("_position")) line += "; 0 is the start lead, 1 the finish lead";
    return line;
}

std::string verdict_headline(const Diagnosis& d, const TitleOf& title_of_fault) {
    return fmt::format("{}: {}, {}", d.decided ? "Verdict" : "Not decided; most likely",
                       title_of_fault(d.verdict.fault), percent(d.verdict.probability));
}

std::string pickup_headline(const PickupDiagnosis& pickup, const Rules& rules) {
    const TitleOf titles = pickup.verdict_coil == "whole" ? titles_of_joints(rules, pickup.pickup_type)
                                                          : titles_of_faults(rules);
    const bool but_for_coils = pickup.verdict_coil == "whole" && pickup.whole.decided && !pickup.decided;
    return fmt::format("{} ({}): {} {}{}", pickup.pickup_type, pickup.verdict_coil,
                       titles(pickup.verdict.fault), percent(pickup.verdict.probability),
                       pickup.decided  ? ""
                       : but_for_coils ? "; what a coil has is not decided"
                                       : ", not decided");
}

TitleOf titles_of_faults(const Rules& rules) {
    return [&rules](const std::string& fault) { return title_of(fault, rules); };
}

TitleOf titles_of_joints(const Rules& rules, const std::string& pickup_type) {
    return [type = rules.pickup_type(pickup_type)](const std::string& joint) {
        if (!type) return joint;
        const auto found = std::ranges::find(type->joint_faults, joint, &JointFault::id);
        return found == type->joint_faults.end() ? joint : found->title;
    };
}

std::vector<std::string> in_words(const InTurns& counted) {
    std::vector<std::string> lines;
    if (counted.shorted) {
        std::string line = fmt::format("shorted: about {}", with_range(*counted.shorted));
        if (counted.shorted_layers)
            line += fmt::format(", {:.2g} layers wound turn beside turn", counted.shorted_layers->value);
        lines.push_back(line);
    }
    if (counted.from_start && counted.from_finish)
        lines.push_back(fmt::format("about {} from the start lead, {} from the finish lead",
                                    with_range(*counted.from_start), with_range(*counted.from_finish)));
    return lines;
}

} // namespace coilward
