#include "report/comparison_page.h"

#include "report/text_block.h"
#include "report/verdict_words.h"
#include "units/engineering.h"

#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::size_t name_width = 46;

std::string amount(const Uncertain& number, Quantity quantity) {
    return engineering_with_uncertainty(number.value, number.standard_uncertainty, unit(quantity));
}

std::string pair_in_words(const ComparedPair& pair, const CoilComparison& comparison, Quantity quantity) {
    const std::string who = comparison.coils.size() == 2
                                ? std::string("difference")
                                : fmt::format("{} against {}", pair.second + 1, pair.first + 1);
    return fmt::format("  {}{} ({}): {}\n", padded("    " + who, name_width),
                       amount(pair.difference, quantity), per_cent_in_words(pair),
                       pair.significant
                           ? fmt::format("differs, {:.1f} standard uncertainties", pair.deviations)
                           : std::string("no more than chance"));
}

std::string section(const ComparedQuantity& quantity, const CoilComparison& comparison) {
    std::string text = describe(quantity.question) + "\n";
    for (std::size_t place = 0; place < quantity.values.size(); ++place) {
        const ComparedValue& value = quantity.values[place];
        const std::string shown = value.value ? amount(*value.value, quantity.question.quantity) : "-";
        text +=
            fmt::format("  {}{}  {}\n",
                        padded(fmt::format("{}  {}", place + 1, comparison.coils[place].title), name_width),
                        padded(shown, 24), value.says);
    }
    for (const ComparedPair& pair : quantity.pairs)
        text += pair_in_words(pair, comparison, quantity.question.quantity);
    return text;
}

std::string hum_in_words(const HumCancelling& hum) {
    std::string text = "Hum-cancelling pair\n";
    text += wrapped(fmt::format("turns, second to first: {}, from {}",
                                engineering_with_uncertainty(hum.turns_ratio.value,
                                                             hum.turns_ratio.standard_uncertainty, "1"),
                                hum.turns_from),
                    "  ");
    const double decibel = hum.hum_left.value > 0.0 ? 20.0 * std::log10(hum.hum_left.value) : -INFINITY;
    text += wrapped(fmt::format("hum left of what both in phase would pick up: {:.2f} ± {:.2f} % ({})",
                                100.0 * hum.hum_left.value, 100.0 * hum.hum_left.standard_uncertainty,
                                hum.may_be_none ? std::string("none is within the uncertainty")
                                                : fmt::format("{:.0f} dB", decibel)),
                    "  ");
    return text + wrapped(hum.polarity, "  ");
}

/// What a person wants to read first.
std::string summary(const CoilComparison& comparison) {
    std::string differ;
    std::size_t pairs = 0;
    for (const ComparedQuantity& quantity : comparison.quantities)
        for (const ComparedPair& pair : quantity.pairs) {
            ++pairs;
            if (!pair.significant) continue;
            differ += fmt::format("{}{}", differ.empty() ? "" : "; ", describe(quantity.question));
            if (comparison.coils.size() > 2)
                differ += fmt::format(" ({} against {})", pair.second + 1, pair.first + 1);
        }
    if (pairs == 0) return "Nothing was read of both that could be compared\n";
    if (differ.empty()) return "No difference is more than chance\n";
    return wrapped("Differs: " + differ, "");
}

} // namespace

std::string comparison_page(const CoilComparison& comparison) {
    std::string page = summary(comparison) + "\n";
    for (const ComparedQuantity& quantity : comparison.quantities)
        page += section(quantity, comparison) + "\n";
    if (comparison.hum) page += hum_in_words(*comparison.hum) + "\n";
    return page +
           wrapped(fmt::format(
                       "A difference counts from {:.2f} of its standard uncertainties on: of coils that are "
                       "alike, {} of such comparisons show none. Resistances and Q are those at 20 °C.",
                       comparison.needed_deviations, percent(comparison.confidence)),
                   "");
}

} // namespace coilward
