#include "report/confirmation_page.h"

#include "history/history_page.h"
#include "report/confirmation_words.h"
#include "report/text_block.h"
#include "units/engineering.h"

#include <fmt/format.h>

namespace coilward {
namespace {

std::string fact(const std::string& name, const std::string& text) {
    return text.empty() ? "" : wrapped(text, "  " + padded(name, 14));
}

std::string check_in_words(const Checked& checked) {
    std::string text =
        fmt::format("  {}{}{}{}{}\n", padded(title_of(checked.requirement), 30),
                    padded(judged_in_words(checked), 20), padded(limits_in_words(checked.requirement), 22),
                    padded(probability_in_words(checked), 9), name(checked.conformity.decision));
    return text + fmt::format("    {}; limits from {}\n", checked.says, checked.requirement.from);
}

std::string turns_in_words(const TurnsCheck& turns) {
    std::string text;
    if (turns.counted)
        text += fact("counter",
                     engineering_with_uncertainty(turns.counted->value,
                                                  std::max(turns.counted->standard_uncertainty, 0.5), "1"));
    for (const ImpliedTurns& implied : turns.implied)
        text +=
            fact("by " + std::string(implied.from == "DC resistance" ? "resistance" : implied.from),
                 engineering_with_uncertainty(implied.turns.value, implied.turns.standard_uncertainty, "1"));
    for (const std::string& says : turns.says)
        text += wrapped(says, "  · ");
    return text;
}

std::string reading_in_words(const StoredReading& stored) {
    return fmt::format("  {}  {}{}{}\n", text_of(stored.at).substr(11, 8),
                       padded(describe(stored.reading) + " ", 52),
                       padded(answer_in_words(stored.reading), 24), source_of(stored));
}

} // namespace

std::string confirmation_page(const Confirmation& confirmation, const RecordPeople& people) {
    std::string page = fmt::format("{}: {}\n\n", subject_in_words(confirmation),
                                   decision_in_capitals(confirmation.decision));
    page +=
        fact("owner", confirmation.pickup.owner) + fact("instrument", confirmation.pickup.instrument) +
        fact("visit", text_of(confirmation.visit.at).substr(0, 16) + " UTC  " + confirmation.visit.stage) +
        fact("temperature", temperature_in_words(confirmation));
    page += fmt::format("\n  {}{}{}{}\n", padded("at 20 °C", 30), padded("measured", 20),
                        padded("limits", 22), "inside");
    for (const Checked& checked : confirmation.checked)
        page += check_in_words(checked);
    page += "\n";
    for (const HardCondition& condition : confirmation.conditions)
        page += fmt::format("  {}{}  {}\n", padded(condition.name, 14),
                            padded(std::string(name(condition.decision)), 15), condition.says);
    page += "\nTurns\n" + turns_in_words(confirmation.turns) + "\nReadings\n";
    for (const StoredReading& stored : confirmation.readings)
        page += reading_in_words(stored);
    page += "\n" + wrapped(rule_in_words(confirmation.rule), "Rule  ");
    if (!people.remarks.empty()) page += wrapped(people.remarks, "Remarks  ");
    page += fmt::format("\nTested by {}   Date ____________   Signature ______________________\n",
                        people.tested_by.empty() ? "______________________" : people.tested_by);
    return page;
}

} // namespace coilward
