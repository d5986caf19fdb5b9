#include "score.h"

#include <algorithm>
#include <cmath>

namespace population {
namespace {

struct AskedEstimate {
    const char* fault;
    const char* estimate;
};

/// The estimates that ship, by the fault under which each is asked.
constexpr std::array<AskedEstimate, 7> asked_estimates{{{"open", "break_position"},
                                                        {"shorted-turns", "shorted_fraction"},
                                                        {"partial-break", "break_position"},
                                                        {"partial-break", "series_resistance"},
                                                        {"frame-leak", "leak_resistance"},
                                                        {"turns-off", "turns_factor"},
                                                        {"wrong-wire", "resistance_factor"}}};

bool holds(const Interval& interval, double truth) {
    constexpr double rounding = 1e-9;
    return interval.low <= truth + rounding && truth <= interval.high + rounding;
}

double median(std::vector<double> values) {
    if (values.empty()) return 0.0;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

Coverage coverage_of(const std::vector<Outcome>& outcomes, const std::string& fault,
                     const std::string& estimate) {
    const bool position = estimate == "break_position";
    Coverage row;
    std::vector<double> widths;
    for (const Outcome& outcome : outcomes) {
        if (outcome.fault != fault || !outcome.answered) continue;
        const auto found = outcome.estimates.find(estimate);
        if (found == outcome.estimates.end()) {
            ++row.not_estimated;
            continue;
        }
        const double truth = outcome.severities.at(estimate);
        row.inside.add(holds(found->second, truth));
        widths.push_back((found->second.high - found->second.low) / (position ? 1.0 : truth));
    }
    row.median_width = median(widths);
    return row;
}

} // namespace

double half_width_95(const Share& share) {
    if (share.count == 0) return 1.0;
    constexpr double z = 1.959964;
    const double n = share.count;
    const double p = share.value();
    return z / (1.0 + z * z / n) * std::sqrt(p * (1.0 - p) / n + z * z / (4.0 * n * n));
}

Reliability reliability(const std::vector<Outcome>& outcomes) {
    Reliability bins{};
    for (const Outcome& outcome : outcomes) {
        if (!outcome.answered) continue;
        const auto bin = std::clamp(static_cast<int>(outcome.probability * 10.0), 0, 9);
        bins[static_cast<std::size_t>(bin)].right.add(outcome.right());
        bins[static_cast<std::size_t>(bin)].stated_sum += outcome.probability;
    }
    return bins;
}

double expected_calibration_error(const Reliability& bins) {
    double sum = 0.0;
    int count = 0;
    for (const ReliabilityBin& bin : bins) {
        sum += bin.right.count * std::abs(bin.stated() - bin.right.value());
        count += bin.right.count;
    }
    return count == 0 ? 0.0 : sum / count;
}

double surprise_bits(const Outcome& outcome) {
    const auto found = outcome.probabilities.find(outcome.fault);
    const double probability = found == outcome.probabilities.end() ? 0.0 : found->second;
    return std::min(30.0, -std::log2(std::max(probability, 1e-300)));
}

double mean_surprise_bits(const std::vector<Outcome>& outcomes) {
    double sum = 0.0;
    int count = 0;
    for (const Outcome& outcome : outcomes) {
        if (!outcome.answered) continue;
        sum += surprise_bits(outcome);
        ++count;
    }
    return count == 0 ? 0.0 : sum / count;
}

Share accuracy(const std::vector<Outcome>& outcomes) {
    Share share;
    for (const Outcome& outcome : outcomes)
        share.add(outcome.right());
    return share;
}

Share decided(const std::vector<Outcome>& outcomes) {
    Share share;
    for (const Outcome& outcome : outcomes)
        share.add(outcome.decided);
    return share;
}

Share wrong_when_decided(const std::vector<Outcome>& outcomes) {
    Share share;
    for (const Outcome& outcome : outcomes)
        if (outcome.decided) share.add(!outcome.right());
    return share;
}

std::map<std::string, Share>
accuracy_by(const std::vector<Outcome>& outcomes,
            const std::function<std::vector<std::string>(const Outcome&)>& groups) {
    std::map<std::string, Share> shares;
    for (const Outcome& outcome : outcomes)
        for (const std::string& group : groups(outcome))
            shares[group].add(outcome.right());
    return shares;
}

std::map<std::string, Coverage> coverage(const std::vector<Outcome>& outcomes) {
    std::map<std::string, Coverage> table;
    for (const auto& [fault, estimate] : asked_estimates)
        table[std::string(fault) + ": " + estimate] = coverage_of(outcomes, fault, estimate);
    return table;
}

Share rule_of_thumb(const std::vector<Outcome>& outcomes) {
    Share share;
    for (const Outcome& outcome : outcomes) {
        const double nominal = outcome.nominal_resistance_ohm;
        const bool healthy =
            outcome.resistance_read_ohm && std::abs(*outcome.resistance_read_ohm - nominal) <= 0.1 * nominal;
        share.add(healthy == (outcome.fault == "healthy"));
    }
    return share;
}

Share healthy_or_not(const std::vector<Outcome>& outcomes) {
    Share share;
    for (const Outcome& outcome : outcomes)
        share.add(outcome.answered && (outcome.named == "healthy") == (outcome.fault == "healthy"));
    return share;
}

} // namespace population
