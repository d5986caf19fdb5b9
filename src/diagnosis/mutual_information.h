#pragma once

#include "diagnosis/posterior.h"

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace coilward {

/// What an answer out of a few tells about which fault it is, in bits: E[ln p(answer | fault) − ln
/// p(answer)] / ln 2. `chances_of(fault)` gives the chance of each answer; they sum to 1.
/// (C. E. Shannon, 1948.)
template <std::size_t Answers, typename ChancesOf>
double mutual_information_bits(const Posterior& posterior, ChancesOf chances_of) {
    std::array<double, Answers> whole{};
    std::vector<std::array<double, Answers>> by_fault;
    by_fault.reserve(posterior.size());
    for (const FaultPosterior& p : posterior) {
        by_fault.push_back(chances_of(p));
        for (std::size_t i = 0; i < Answers; ++i)
            whole[i] += p.probability * by_fault.back()[i];
    }
    double nats = 0.0;
    for (std::size_t fault = 0; fault < posterior.size(); ++fault)
        for (std::size_t i = 0; i < Answers; ++i) {
            const double chance = by_fault[fault][i];
            const double of_both = posterior[fault].probability * chance;
            if (of_both > 0.0) nats += of_both * std::log(chance / whole[i]);
        }
    return nats / std::numbers::ln2;
}

} // namespace coilward
