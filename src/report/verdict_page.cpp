#include "report/verdict_page.h"

#include "report/band.h"
#include "units/engineering.h"

#include <cmath>
#include <iterator>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr int page_width = 98;
constexpr double least_probability_shown = 0.005;

std::string title_of(const std::string& fault, const Rules& rules) {
    const Fault* found = rules.fault(fault);
    return found ? found->title : fault;
}

/// Columns that a UTF-8 text takes, one a character.
std::size_t columns(std::string_view text) {
    std::size_t count = 0;
    for (const char c : text)
        if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++count;
    return count;
}

std::string padded(std::string text, std::size_t width) {
    const std::size_t taken = columns(text);
    if (taken < width) text.append(width - taken, ' ');
    return text;
}

/// Words broken over lines that begin with `first`, then with as many blanks.
std::string wrapped(std::string_view text, const std::string& first) {
    const std::string rest(columns(first), ' ');
    std::string lines;
    std::string line = first;
    bool empty = true;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string_view word = text.substr(at, end - at);
        if (!empty && columns(line) + 1 + columns(word) > page_width) {
            lines += line + '\n';
            line = rest;
            empty = true;
        }
        if (!empty) line += ' ';
        line += word;
        empty = false;
        at = end + 1;
    }
    return lines + line + '\n';
}

std::string percent(double share) {
    if (share >= 0.995 && share < 1.0) return "> 99 %";
    return share < 0.01 ? "< 1 %" : fmt::format("{:.0f} %", 100.0 * share);
}

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

std::string estimate_line(const Estimate& e) {
    const auto shown = [&](double value) {
        if (is_share(e.name)) return fmt::format("{:.2g} %", 100.0 * value);
        if (is_resistance(e.name)) return engineering(value, "ohm", 3);
        return fmt::format("{:.2f}", value);
    };
    std::string line =
        fmt::format("  {}: {} (90 %: {} to {})", spaced(e.name), shown(e.value), shown(e.low), shown(e.high));
    if (e.name.ends_with("_position")) line += "; 0 is the start lead, 1 the finish lead";
    return line + '\n';
}

std::string verdict_block(const Diagnosis& d, const Rules& rules) {
    std::string text = fmt::format("{}: {}, {}\n", d.decided ? "Verdict" : "Not decided; most likely",
                                   title_of(d.verdict.fault, rules), percent(d.verdict.probability));
    for (const Estimate& estimate : d.verdict.estimates)
        text += estimate_line(estimate);
    return text;
}

std::string comparison_block(const Diagnosis& d) {
    if (d.comparisons.empty()) return "";
    std::string text = "\nRead, on what healthy coils of this model measure at this temperature\n";
    for (const Comparison& c : d.comparisons) {
        const std::string_view unit_name = unit(c.reading.quantity);
        text += fmt::format("  {} {} {} {} {}\n", padded(describe(c.reading), 37),
                            padded(engineering(c.measured, unit_name), 9),
                            band(c.measured, c.standard_uncertainty, c.expected, 22),
                            padded(engineering_range(c.expected.low, c.expected.high, unit_name), 18),
                            name(c.standing));
    }
    return text;
}

std::string probability_block(const Diagnosis& d, const Rules& rules) {
    std::string text = "\nHow likely\n";
    for (const FaultProbability& f : d.faults)
        if (f.probability >= least_probability_shown)
            text += fmt::format("  {} {} {}\n", padded(title_of(f.fault, rules), 44),
                                padded(percent(f.probability), 6), bar(f.probability, 40));
    return text;
}

std::string reason_block(const Diagnosis& d) {
    constexpr double least_decibans = 1.0;
    std::string text;
    for (const Reason& reason : d.reasons)
        if (std::abs(reason.decibans) >= least_decibans)
            text += wrapped(fmt::format("{}, {} ({:+.0f} dB)", reason.reading, reason.says, reason.decibans),
                            "  - ");
    return text.empty() ? text : "\nWhy\n" + text;
}

std::string next_block(const Diagnosis& d) {
    constexpr std::size_t most = 3;
    if (d.decided || d.next.empty()) return "";
    std::string text = "\nMeasure next\n";
    for (std::size_t i = 0; i < std::min(most, d.next.size()); ++i)
        text += wrapped(fmt::format("{} ({:.2f} bits in {:.0f} s): {}", d.next[i].reading,
                                    d.next[i].gain_bits, d.next[i].seconds, d.next[i].how),
                        "  - ");
    return text;
}

std::string list_block(const char* heading, const std::vector<std::string>& lines) {
    if (lines.empty()) return "";
    std::string text = fmt::format("\n{}\n", heading);
    for (const std::string& line : lines)
        text += wrapped(line, "  - ");
    return text;
}

} // namespace

std::string verdict_page(const Diagnosis& d, const Rules& rules) {
    return verdict_block(d, rules) + comparison_block(d) + probability_block(d, rules) + reason_block(d) +
           next_block(d) + list_block("What to do", d.advice) + list_block("Cautions", d.cautions) +
           list_block("Notes", d.notes);
}

std::string progress_line(const Diagnosis& d, const Rules& rules) {
    std::string line = fmt::format("{} {}", title_of(d.verdict.fault, rules), percent(d.verdict.probability));
    if (d.decided) return line + ", decided";
    if (!d.next.empty()) line += fmt::format("; next: {}", d.next.front().reading);
    return line;
}

} // namespace coilward
