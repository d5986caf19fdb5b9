#include "history/history_page.h"
#include "report/confirmation_page.h"
#include "report/confirmation_words.h"
#include "report/markup.h"

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::string_view style = R"css(
@page { size: A4; margin: 14mm }
body { font: 9pt/1.3 sans-serif; color: #111; max-width: 182mm; margin: 0 auto; padding: 1em }
h1 { font-size: 15pt; margin: 0 0 .3em } h2 { font-size: 10pt; margin: 1em 0 .2em }
table { border-collapse: collapse; width: 100% }
th, td { text-align: left; vertical-align: top; padding: .15em .6em .15em 0; border-bottom: 1px solid #bbb }
small { color: #444 } table:last-of-type { font-size: 7.5pt }
table:last-of-type td:first-child, table:last-of-type td:nth-child(3) { white-space: nowrap }
.decision { border: 2px solid #111; padding: .1em .6em; float: right; font-weight: bold }
.signature { margin-top: 2.5em; display: flex; gap: 2em } .signature span { flex: 1; border-top: 1px solid #111 }
@media print { body { padding: 0 } table, .signature { page-break-inside: avoid } }
)css";

std::string row(std::initializer_list<std::string> cells, const char* tag = "td") {
    std::string line = "<tr>";
    for (const std::string& cell : cells)
        line += fmt::format("<{0}>{1}</{0}>", tag, cell);
    return line + "</tr>\n";
}

std::string fact_row(const std::string& name, const std::string& text) {
    return text.empty() ? "" : row({"<b>" + name + "</b>", escaped(text)});
}

std::string check_row(const Checked& checked) {
    const Requirement& requirement = checked.requirement;
    return row(
        {escaped(title_of(requirement)) + "<br><small>" + escaped(checked.says) + "</small>",
         escaped(judged_in_words(checked)),
         escaped(limits_in_words(requirement)) + "<br><small>" + escaped(requirement.from) + "</small>",
         escaped(probability_in_words(checked)), std::string(name(checked.conformity.decision))});
}

std::string heading(const Confirmation& confirmation, const RecordPeople& people) {
    const std::string visit =
        text_of(confirmation.visit.at).substr(0, 16) + " UTC  " + confirmation.visit.stage;
    return fmt::format("<p class=\"decision\">{}</p>\n<h1>Record of a rewind</h1>\n<table>\n",
                       decision_in_capitals(confirmation.decision)) +
           fact_row("Coil", subject_in_words(confirmation)) + fact_row("Owner", confirmation.pickup.owner) +
           fact_row("Instrument", confirmation.pickup.instrument) + fact_row("Visit", visit) +
           fact_row("Temperature", temperature_in_words(confirmation)) + fact_row("Remarks", people.remarks) +
           "</table>\n";
}

std::string checks(const Confirmation& confirmation) {
    std::string table = "<h2>Measured against its limits</h2>\n<table>\n" +
                        row({"", "At 20 °C", "Limits", "Inside", "Decision"}, "th");
    for (const Checked& checked : confirmation.checked)
        table += check_row(checked);
    for (const HardCondition& condition : confirmation.conditions)
        table +=
            row({condition.name, escaped(condition.says), "", "", std::string(name(condition.decision))});
    return table + "</table>\n<p><small>" + escaped(rule_in_words(confirmation.rule)) + "</small></p>\n";
}

std::string turns(const TurnsCheck& check) {
    std::string text = "<h2>Turns</h2>\n<table>\n";
    if (check.counted) text += row({"counter", fmt::format("{:.0f}", check.counted->value)});
    for (const ImpliedTurns& implied : check.implied)
        text += row({"by " + escaped(implied.from), fmt::format("{:.0f} ± {:.0f}", implied.turns.value,
                                                                implied.turns.standard_uncertainty)});
    for (const std::string& says : check.says)
        text += row({"", escaped(says)});
    return text + "</table>\n";
}

std::string readings(const Confirmation& confirmation) {
    std::string table = "<h2>Readings</h2>\n<table>\n" + row({"UTC", "Quantity", "Answer", "Meter"}, "th");
    for (const StoredReading& stored : confirmation.readings)
        table += row({text_of(stored.at).substr(0, 19), escaped(describe(stored.reading)),
                      escaped(answer_in_words(stored.reading)), escaped(source_of(stored))});
    return table + "</table>\n";
}

} // namespace

std::string confirmation_record(const Confirmation& confirmation, const RecordPeople& people) {
    return fmt::format(
               "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>{}</title>\n"
               "<style>{}</style>\n</head>\n<body>\n",
               escaped(subject_in_words(confirmation)), style) +
           heading(confirmation, people) + checks(confirmation) + turns(confirmation.turns) +
           readings(confirmation) +
           fmt::format("<div class=\"signature\"><span>Tested by "
                       "{}</span><span>Date</span><span>Signature</span></div>\n"
                       "<p><small>{}; visit {}</small></p>\n</body>\n</html>\n",
                       escaped(people.tested_by), escaped(people.program), text_of(confirmation.visit.id));
}

} // namespace coilward
