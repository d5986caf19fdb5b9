#include "score_tables.h"

#include "score.h"

#include <algorithm>
#include <iomanip>
#include <set>
#include <sstream>

namespace population {
std::string percent(double share) {
    std::ostringstream text;
    text << std::fixed << std::setprecision(1) << 100.0 * share << " %";
    return text.str();
}

std::string with_interval(const Share& share) {
    return percent(share.value()) + " ± " + percent(half_width_95(share)) + " of " +
           std::to_string(share.count);
}

namespace {

void print_summary(const std::vector<Outcome>& outcomes, std::ostream& out) {
    int unanswered = 0;
    for (const Outcome& outcome : outcomes)
        unanswered += outcome.answered ? 0 : 1;
    out << "| score | value |\n| --- | --- |\n"
        << "| leader is the true fault | " << with_interval(accuracy(outcomes)) << " |\n"
        << "| healthy or not | " << with_interval(healthy_or_not(outcomes)) << " |\n"
        << "| healthy or not, by resistance within 10 % of nominal | "
        << with_interval(rule_of_thumb(outcomes)) << " |\n"
        << "| expected calibration error | " << percent(expected_calibration_error(reliability(outcomes)))
        << " |\n"
        << "| mean surprise at the true fault | " << std::setprecision(3) << mean_surprise_bits(outcomes)
        << " bits |\n"
        << "| decided | " << with_interval(decided(outcomes)) << " |\n"
        << "| wrong when decided | " << with_interval(wrong_when_decided(outcomes)) << " |\n"
        << "| not answered | " << unanswered << " |\n";
}

void print_reliability(const std::vector<Outcome>& outcomes, std::ostream& out) {
    out << "\n## Stated and observed\n\n| stated, mean | right | coils |\n| --- | --- | --- |\n";
    for (const ReliabilityBin& bin : reliability(outcomes))
        if (bin.right.count > 0)
            out << "| " << percent(bin.stated()) << " | " << percent(bin.right.value()) << " | "
                << bin.right.count << " |\n";
}

void print_confusion(const std::vector<Outcome>& outcomes, std::ostream& out) {
    std::set<std::string> rows;
    std::set<std::string> columns;
    std::map<std::pair<std::string, std::string>, int> counts;
    for (const Outcome& outcome : outcomes) {
        const std::string named = outcome.answered ? outcome.named : "not answered";
        rows.insert(outcome.fault);
        columns.insert(named);
        ++counts[{outcome.fault, named}];
    }
    out << "\n## Confusion: rows are true, columns named\n\n|";
    for (const std::string& column : columns)
        out << " | " << column;
    out << " |\n| ---";
    for (std::size_t i = 0; i < columns.size(); ++i)
        out << " | ---";
    out << " |\n";
    for (const std::string& row : rows) {
        out << "| " << row;
        for (const std::string& column : columns)
            out << " | " << counts[{row, column}];
        out << " |\n";
    }
}

void print_coverage(const std::vector<Outcome>& outcomes, std::ostream& out) {
    out << "\n## Coverage of the 90 % intervals\n\n"
        << "| estimate | truth inside | median width | not estimated |\n| --- | --- | --- | --- |\n";
    for (const auto& [name, row] : coverage(outcomes))
        out << "| " << name << " | " << with_interval(row.inside) << " | " << std::setprecision(3)
            << row.median_width << " | " << row.not_estimated << " |\n";
}

std::vector<std::string> words(const std::string& world) {
    std::vector<std::string> parts;
    std::istringstream stream(world);
    for (std::string part; std::getline(stream, part, '/');)
        parts.push_back(part);
    return parts;
}

void print_groups(const char* title, const std::map<std::string, Share>& groups, std::ostream& out) {
    out << "\n## Accuracy by " << title << "\n\n| " << title << " | right |\n| --- | --- |\n";
    for (const auto& [group, share] : groups)
        out << "| " << group << " | " << with_interval(share) << " |\n";
}

/// The coils whose true fault was thought least likely: where to look for what the diagnosis does not know.
void print_most_surprising(std::vector<Outcome> outcomes, std::ostream& out) {
    constexpr std::size_t shown = 15;
    std::erase_if(outcomes, [](const Outcome& outcome) { return !outcome.answered || outcome.right(); });
    std::stable_sort(outcomes.begin(), outcomes.end(),
                     [](const Outcome& a, const Outcome& b) { return surprise_bits(a) > surprise_bits(b); });
    if (outcomes.size() > shown) outcomes.resize(shown);
    out << "\n## Most surprising\n\n| id | true | named | stated | bits | severities |\n"
        << "| --- | --- | --- | --- | --- | --- |\n";
    for (const Outcome& outcome : outcomes) {
        out << "| " << outcome.id << " | " << outcome.fault << " | " << outcome.named << " | "
            << percent(outcome.probability) << " | " << std::setprecision(3) << surprise_bits(outcome)
            << " |";
        for (const auto& [name, value] : outcome.severities)
            out << " " << name << " " << value;
        out << " |\n";
    }
}

} // namespace

void print_scores(const std::vector<Outcome>& outcomes, std::ostream& out) {
    using Groups = std::vector<std::string>;
    print_summary(outcomes, out);
    print_reliability(outcomes, out);
    print_confusion(outcomes, out);
    print_coverage(outcomes, out);
    const auto by = [&](auto groups) { return accuracy_by(outcomes, groups); };
    print_groups("fault", by([](const Outcome& o) { return Groups{o.fault}; }), out);
    print_groups("protocol", by([](const Outcome& o) { return Groups{o.protocol}; }), out);
    print_groups("coil model", by([](const Outcome& o) { return Groups{o.coil_model}; }), out);
    print_groups("world", by([](const Outcome& o) { return words(o.world); }), out);
    print_most_surprising(outcomes, out);
}

} // namespace population
