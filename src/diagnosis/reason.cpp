#include "diagnosis/reason.h"

#include "diagnosis/answer_likelihood.h"
#include "diagnosis/model_error.h"
#include "diagnosis/prediction.h"
#include "units/engineering.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr double decibans_per_nat = 10.0 * std::numbers::log10e;

/// A fault at its best explanation.
struct Side {
    const FaultPosterior* posterior = nullptr;
    Values values{};

    Primitive primitive() const { return posterior->fault->primitive; }
};

Side side_of(const FaultPosterior& posterior, const CoilPrior& prior) {
    Side side{&posterior, prior.mean};
    if (!posterior.explanations.empty()) {
        const Explanation& best = posterior.explanations.front();
        side.values = values_at(best.component, best.mode.unknowns);
    }
    return side;
}

std::string shown(const Reading& reading) {
    if (reading.quantity == Quantity::polarity) {
        switch (*reading.polarity) {
        case Polarity::as_expected:
            return "the kick has the expected sign";
        case Polarity::reversed:
            return "the kick has the opposite sign";
        case Polarity::none:
            return "there is no kick";
        }
    }
    if (reading.state == State::over_range)
        return reading.limit
                   ? fmt::format("over range above {}", engineering(*reading.limit, unit(reading.quantity)))
                   : std::string("over range");
    if (reading.state == State::under_range) return "under range";
    return fmt::format("read {}", engineering(*reading.value, unit(reading.quantity)));
}

std::string predicted(const Reading& reading, const Side& side) {
    const auto prediction = predict(reading, side.primitive(), side.values);
    return prediction ? engineering(prediction->value, unit(reading.quantity)) : std::string("no number");
}

double cost(const Answer& answer, const Probe& probe, const Side& side) {
    const CircuitUnderTest circuit = circuit_of(side.primitive(), side.values);
    const auto z = impedance_with_gradient(circuit.coil, circuit.fault, probe.port, probe.frequency_hz);
    const LookedAt look = looked_at(answer, z.impedance_ohm, 2.0 * std::numbers::pi * probe.frequency_hz);
    return judge(answer, look,
                 model_variance(slopes_of(look.form, z),
                                squared_errors_at(probe.frequency_hz, answer.repeats_earlier)))
        .cost();
}

class Reasoning {
public:
    Reasoning(Side leader, Side other, const std::vector<Reading>& readings)
        : leader_(std::move(leader)), other_(std::move(other)), readings_(readings) {}

    void weigh(const Evidence& evidence) {
        for (const Probe& probe : evidence.probes)
            for (const Answer& answer : probe.answers)
                add(answer.reading, cost(answer, probe, other_) - cost(answer, probe, leader_));
        for (const PlainAnswer& answer : evidence.resonances)
            add_resonance(answer);
        for (std::size_t i = 0; i < readings_.size(); ++i)
            if (readings_[i].quantity == Quantity::polarity) add_polarity(i);
    }

    std::vector<Reason> sorted() {
        std::ranges::stable_sort(reasons_, std::greater{}, &Reason::decibans);
        return std::move(reasons_);
    }

private:
    void add(std::size_t index, double nats) {
        const Reading& reading = readings_[index];
        reasons_.push_back(
            {describe(reading),
             fmt::format("{}: {} would show {}, {} {}", shown(reading), with_article(leader_),
                         predicted(reading, leader_), with_article(other_), predicted(reading, other_)),
             nats * decibans_per_nat});
    }

    void add_resonance(const PlainAnswer& answer) {
        const auto a = predict(readings_[answer.reading], leader_.primitive(), leader_.values);
        const auto b = predict(readings_[answer.reading], other_.primitive(), other_.values);
        if (a && b) add(answer.reading, judge(answer, b->value).cost() - judge(answer, a->value).cost());
    }

    void add_polarity(std::size_t index) {
        const auto chance = [&](const Side& side) {
            const PolarityChances& c = side.posterior->fault->polarity;
            switch (*readings_[index].polarity) {
            case Polarity::as_expected:
                return c.as_expected;
            case Polarity::reversed:
                return c.reversed;
            case Polarity::none:
                break;
            }
            return c.none;
        };
        reasons_.push_back(
            {describe(readings_[index]),
             fmt::format("{}: {} does so {:.0f} times in 100, {} {:.0f}", shown(readings_[index]),
                         with_article(leader_), 100.0 * chance(leader_), with_article(other_),
                         100.0 * chance(other_)),
             std::log(std::max(chance(leader_), 1e-12) / std::max(chance(other_), 1e-12)) *
                 decibans_per_nat});
    }

    static std::string with_article(const Side& side) {
        return fmt::format("“{}”", side.posterior->fault->title);
    }

    Side leader_;
    Side other_;
    const std::vector<Reading>& readings_;
    std::vector<Reason> reasons_;
};

const FaultPosterior& healthy_of(const Posterior& posterior) {
    return *std::ranges::find(posterior, Primitive::none,
                              [](const FaultPosterior& p) { return p.fault->primitive; });
}

} // namespace

std::vector<Reason> reasons_for(const Posterior& posterior, const std::vector<Reading>& readings,
                                const Evidence& evidence, const CoilPrior& prior) {
    const FaultPosterior& leader = posterior.front();
    if (leader.fault->primitive == Primitive::unlisted || posterior.size() < 2) return {};
    const bool healthy_leads = leader.fault->primitive == Primitive::none;
    const auto runner_up = std::find_if(posterior.begin() + 1, posterior.end(), [](const FaultPosterior& p) {
        return p.fault->primitive != Primitive::unlisted;
    });
    if (healthy_leads && runner_up == posterior.end()) return {};
    Reasoning reasoning(side_of(leader, prior),
                        side_of(healthy_leads ? *runner_up : healthy_of(posterior), prior), readings);
    reasoning.weigh(evidence);
    return reasoning.sorted();
}

} // namespace coilward
