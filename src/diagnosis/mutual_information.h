#pragma once

#include "diagnosis/posterior.h"

#include <array>
#include <cmath>
#include <numbers>

namespace coilward {

/// What an answer out of a few tells about which fault it is, in bits: E[ln p(answer | fault) − ln
/// p(answer)]. `chances_of(fault)` gives the chance of each answer; they sum to 1.
template <std::size_t Answers, typename ChancesOf>
double mutual_information_bits(const Posterior& posterior, ChancesOf chances_of) {
    std::array<double, Answers> whole{};
    for (const FaultPosterior& p : posterior) {
        const std::array<double, Answers> chances = chances_of(p);
        for (std::size_t i = 0; i < Answers; ++i)
            whole[i] += p.probability * chances[i];
    }
    double nats = 0.0;
    for (const FaultPosterior& p : posterior) {
        const std::array<double, Answers> chances = chances_of(p);
        for (std::size_t i = 0; i < Answers; ++i)
            if (p.probability * chances[i] > 0.0)
                nats += p.probability * chances[i] * std::log(chances[i] / whole[i]);
    }
    return nats / std::numbers::ln2;
}

} // namespace coilward
