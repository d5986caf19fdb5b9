#include "report/verdict_words.h"

#include "units/engineering.h"

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

std::string verdict_headline(const Diagnosis& d, const Rules& rules) {
    return fmt::format("{}: {}, {}", d.decided ? "Verdict" : "Not decided; most likely",
                       title_of(d.verdict.fault, rules), percent(d.verdict.probability));
}

} // namespace coilward
