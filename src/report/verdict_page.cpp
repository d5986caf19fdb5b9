#include "report/verdict_page.h"

#include "report/band.h"
#include "report/text_block.h"
#include "report/verdict_words.h"
#include "report/winding_section.h"
#include "units/engineering.h"

#include <cmath>
#include <iterator>

#include <fmt/format.h>

namespace coilward {
namespace {

std::string verdict_block(const Diagnosis& d, const TitleOf& title_of_fault) {
    std::string text = verdict_headline(d, title_of_fault) + '\n';
    for (const Estimate& estimate : d.verdict.estimates)
        text += fmt::format("  {}\n", estimate_in_words(estimate));
    for (const std::string& line : in_words(d.in_turns))
        text += wrapped(line, "  ");
    return text;
}

std::string polarity_block(const Diagnosis& d) {
    if (!d.polarity) return "";
    std::string text = "\nPolarity\n" + wrapped(d.polarity->says, "  ");
    return d.polarity->partner.empty() ? text : text + wrapped(d.polarity->partner, "  ");
}

std::string place_block(const Diagnosis& d) {
    if (!d.place) return "";
    return "\nWhere in the winding\n" + winding_section(*d.place) + wrapped(place_in_words(*d.place), "  ");
}

std::string comparison_block(const Diagnosis& d) {
    if (d.comparisons.empty()) return "";
    std::size_t widest = 0;
    for (const Comparison& c : d.comparisons)
        widest = std::max(widest, columns(describe(c.reading)));
    std::string text = "\nRead, on what healthy coils of this model measure at this temperature\n";
    for (const Comparison& c : d.comparisons) {
        const std::string_view unit_name = unit(c.reading.quantity);
        text += fmt::format("  {}  {} {} {} {}\n", padded(describe(c.reading), widest),
                            padded(engineering(c.measured, unit_name), 9),
                            band(c.measured, c.standard_uncertainty, c.expected, 22),
                            padded(engineering_range(c.expected.low, c.expected.high, unit_name), 18),
                            name(c.standing));
    }
    return text;
}

std::string probability_block(const Diagnosis& d, const TitleOf& title_of_fault) {
    std::string text = "\nHow likely\n";
    for (const FaultProbability& f : d.faults)
        if (f.probability >= least_probability_shown)
            text += fmt::format("  {} {} {}\n", padded(title_of_fault(f.fault), 44),
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

std::string page_of(const Diagnosis& d, const TitleOf& title_of_fault) {
    return verdict_block(d, title_of_fault) + place_block(d) + polarity_block(d) + comparison_block(d) +
           probability_block(d, title_of_fault) + reason_block(d) + next_block(d) +
           list_block("What to do", d.advice) + list_block("Cautions", d.cautions) +
           list_block("Notes", d.notes);
}

} // namespace

std::string verdict_page(const Diagnosis& d, const Rules& rules) {
    return page_of(d, titles_of_faults(rules));
}

std::string verdict_page(const PickupDiagnosis& pickup, const Rules& rules) {
    std::string text = pickup_headline(pickup, rules) + '\n';
    for (const auto& [name, diagnosis] : pickup.coils)
        text += fmt::format("\n══ {} ({})\n", name, diagnosis.coil_model) + verdict_page(diagnosis, rules);
    return text + "\n══ the whole\n" + page_of(pickup.whole, titles_of_joints(rules, pickup.pickup_type));
}

std::string progress_line(const Diagnosis& d, const Rules& rules, const std::string& next) {
    std::string line = fmt::format("{} {}", title_of(d.verdict.fault, rules), percent(d.verdict.probability));
    if (d.decided) line += ", decided";
    if (!next.empty()) line += "; next: " + next;
    return line;
}

} // namespace coilward
