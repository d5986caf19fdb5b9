#pragma once

#include "outcome.h"

#include <array>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace population {

/// How many of how many.
struct Share {
    int hits = 0;
    int count = 0;

    void add(bool hit) {
        hits += hit ? 1 : 0;
        ++count;
    }

    double value() const { return count == 0 ? 0.0 : static_cast<double>(hits) / count; }
};

/// Half-width of the 95 % interval of a share (Wilson's score interval).
double half_width_95(const Share&);

struct ReliabilityBin {
    Share right;
    double stated_sum = 0.0;

    double stated() const { return right.count == 0 ? 0.0 : stated_sum / right.count; }
};

/// Ten bins of equal width of the leader's probability; only coils that were answered.
using Reliability = std::array<ReliabilityBin, 10>;

Reliability reliability(const std::vector<Outcome>&);

/// Mean distance of stated and observed, weighted by the coils in each bin.
double expected_calibration_error(const Reliability&);

/// −log2 of the probability given to the true fault, in bits, 30 at most.
double surprise_bits(const Outcome&);

/// Over the coils that were answered.
double mean_surprise_bits(const std::vector<Outcome>&);

Share accuracy(const std::vector<Outcome>&);
Share decided(const std::vector<Outcome>&);
Share wrong_when_decided(const std::vector<Outcome>&);

/// Accuracy of each group; an outcome may belong to several.
std::map<std::string, Share>
accuracy_by(const std::vector<Outcome>&,
            const std::function<std::vector<std::string>(const Outcome&)>& groups);

struct Coverage {
    Share inside;              ///< truth within low..high, where the fault is the true one
    int not_estimated = 0;     ///< the true fault came without this estimate
    double median_width = 0.0; ///< of the interval; relative to the truth, but absolute for a position
};

/// By fault and estimate: "open: break_position".
std::map<std::string, Coverage> coverage(const std::vector<Outcome>&);

/// The trade's rule of thumb: healthy where the resistance is within 10 % of nominal. Right where it tells
/// healthy coils from the others.
Share rule_of_thumb(const std::vector<Outcome>&);

/// The diagnosis on the same question: is the coil healthy or not.
Share healthy_or_not(const std::vector<Outcome>&);

} // namespace population
