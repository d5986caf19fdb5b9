#include "diagnosis/reason.h"

#include "diagnosis/answer_likelihood.h"
#include "diagnosis/comparison.h"
#include "diagnosis/healthy_mode.h"
#include "diagnosis/kick.h"
#include "diagnosis/log_sum.h"
#include "diagnosis/model_error.h"
#include "diagnosis/prediction.h"
#include "units/engineering.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

/// A fault as near to the readings as it can be.
struct Side {
    const FaultPosterior* posterior = nullptr;
    Values values{};
    const Explanation* explanation = nullptr; ///< none for a sound coil that no longer matters

    const Fault& fault() const { return *posterior->fault; }

    Primitive primitive() const { return fault().primitive; }

    std::string title() const { return fmt::format("“{}”", fault().title); }
};

Side side_of(const FaultPosterior& posterior, const CoilPrior& prior) {
    Side side{&posterior, prior.mean};
    if (!posterior.explanations.empty()) {
        side.explanation = &posterior.explanations.front();
        side.values = values_at(side.explanation->component, side.explanation->mode.unknowns);
    }
    return side;
}

/// Where sound is out of the question its search was given up early: it is done again from where a sound coil
/// and where the leader would begin.
Side sound_side(const FaultPosterior& sound, const Side& leader, const CoilPrior& prior,
                const Evidence& evidence) {
    constexpr double out_of_the_question_nats = 20.0;
    Side side = side_of(sound, prior);
    if (sound.log_weight > leader.posterior->log_weight - out_of_the_question_nats) return side;
    const Mode mode = healthy_mode(prior, evidence, never, {prior.mean, leader.values});
    if (!mode.abandoned) side.values = values_at({.fixed = prior.mean}, mode.unknowns);
    return side;
}

std::string shown(const Reading& reading) {
    if (is_polarity(reading.quantity)) {
        const bool kick = reading.quantity == Quantity::polarity;
        switch (*reading.polarity) {
        case Polarity::as_expected:
            return kick ? "the kick has the expected sign" : "the compass shows the expected pole";
        case Polarity::reversed:
            return kick ? "the kick has the opposite sign" : "the compass shows the other pole";
        case Polarity::none:
            return kick ? "there is no kick" : "the compass does not care";
        }
    }
    if (reading.state == State::over_range)
        return reading.limit
                   ? fmt::format("over range above {}", engineering(*reading.limit, unit(reading.quantity)))
                   : std::string("over range");
    if (reading.state == State::under_range) return "under range";
    if (reading.state == State::unstable && reading.value)
        return fmt::format("wandering about {}", engineering(*reading.value, unit(reading.quantity)));
    if (!reading.value) return "wandering";
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

/// What sound coils show of it: "sound coils of this model show 5.7 to 6.6 kΩ".
std::string expected(const Reading& reading, const CoilFinding& finding, double temperature_c) {
    const auto range = expected_of(reading, finding.history.prior, temperature_c);
    if (!range) return "of sound coils nothing is known";
    return fmt::format("{} {}",
                       finding.history.visits.empty() ? "sound coils of this model show"
                                                      : "by what it read when sound, this coil shows",
                       engineering_range(range->low, range->high, unit(reading.quantity)));
}

std::string moved_by(const Response& response) {
    const double change = *response.handled.value - *response.at_rest.value;
    const std::string_view unit_name = unit(response.handled.quantity);
    return fmt::format("{} {}", engineering(std::abs(change), unit_name, 3), change < 0.0 ? "less" : "more");
}

/// "read 6.43 kΩ, 6.21 kΩ at rest: 3.5 % more, as copper that is 9 K warmer".
std::string response_in_words(const Response& response) {
    const Reading& handled = response.handled;
    const std::string both = fmt::format("{}, at rest {}", shown(handled), shown(response.at_rest));
    const bool numbers = handled.state == State::ok && response.at_rest.state == State::ok;
    if (!numbers) return both + (moved_oddly(response) ? "" : ", which is no change");
    if (handled.handling == Handling::lifted) return fmt::format("{}: {}", both, moved_by(response));
    const double percent_ = 100.0 * (*handled.value / *response.at_rest.value - 1.0);
    if (handled.handling == Handling::pressed)
        return fmt::format("{}: {}", both,
                           moved_oddly(response) ? fmt::format("it moved by {:+.1f} %", percent_)
                                                 : "it stayed");
    return fmt::format(
        "{}: {:+.1f} %, {}", both, percent_,
        moved_oddly(response)
            ? "where copper rises by 0.39 % a kelvin"
            : fmt::format("as copper that is {:.0f} K warmer (0.39 % a kelvin)", kelvin_of_copper(response)));
}

class Reasoning {
public:
    Reasoning(Side leader, Side other, const CoilFinding& finding, double temperature_c)
        : leader_(leader), other_(other), finding_(finding), temperature_c_(temperature_c) {}

    std::vector<Reason> strongest_first() {
        const Evidence& evidence = finding_.evidence;
        for (const Probe& probe : evidence.probes)
            for (const Answer& answer : probe.answers)
                add_number(answer.reading, cost(answer, probe, other_) - cost(answer, probe, leader_));
        for (const PlainAnswer& answer : evidence.resonances)
            add_resonance(answer);
        for (const Reading& reading : finding_.readings)
            if (is_polarity(reading.quantity)) add_polarity(reading);
        for (const Response& response : finding_.by_use.responses)
            add_response(response);
        std::ranges::stable_sort(reasons_, std::greater{}, &Reason::decibans);
        return std::move(reasons_);
    }

private:
    /// The side whose prediction stands beside what sound coils show.
    const Side& faulty() const { return leader_.primitive() == Primitive::none ? other_ : leader_; }

    void add(const Reading& reading, const std::string& says, double nats) {
        reasons_.push_back({describe(reading), says, nats * decibans_per_nat});
    }

    void add_number(std::size_t index, double nats) {
        const Reading& reading = finding_.by_use.at_rest[index];
        add(reading,
            fmt::format("{}; {}, {} {}", shown(reading), expected(reading, finding_, temperature_c_),
                        faulty().title(), predicted(reading, faulty())),
            nats);
    }

    void add_resonance(const PlainAnswer& answer) {
        const Reading& reading = finding_.by_use.at_rest[answer.reading];
        const auto a = predict(reading, leader_.primitive(), leader_.values);
        const auto b = predict(reading, other_.primitive(), other_.values);
        if (a && b)
            add_number(answer.reading, judge(answer, b->value).cost() - judge(answer, a->value).cost());
    }

    /// Shares of all coils with that fault, as the fault's file states them.
    void add_shares(const Reading& reading, const std::string& what, double leader, double other) {
        add(reading,
            fmt::format("{}: {} does so {:.0f} times in 100, {} {:.0f}", what, leader_.title(),
                        100.0 * leader, other_.title(), 100.0 * other),
            std::log(std::max(leader, 1e-12) / std::max(other, 1e-12)));
    }

    void add_polarity(const Reading& reading) {
        const auto share = [&](const Side& side) {
            return chance_of(*reading.polarity, reading.quantity == Quantity::polarity
                                                    ? kick_chances(side.fault(), side.values)
                                                    : side.fault().magnet_pole);
        };
        add_shares(reading, shown(reading), share(leader_), share(other_));
    }

    void add_response(const Response& response) {
        const auto log_share = [&](const Side& side) {
            return log_likelihood(response, side.fault(), side.explanation);
        };
        const double leader = log_share(leader_);
        const double other = log_share(other_);
        if (response.handled.handling != Handling::lifted)
            return add_shares(response.handled, response_in_words(response), std::exp(leader),
                              std::exp(other));
        const double step =
            faulty().explanation ? step_when_lifted(response, faulty().fault(), *faulty().explanation) : 0.0;
        add(response.handled,
            fmt::format(
                "{}; a coil alone shows no change, {} {}", response_in_words(response), faulty().title(),
                step == 0.0
                    ? "none either"
                    : fmt::format("{} {}", engineering(std::abs(step), unit(response.handled.quantity), 3),
                                  step < 0.0 ? "less" : "more")),
            leader - other);
    }

    Side leader_;
    Side other_;
    const CoilFinding& finding_;
    double temperature_c_;
    std::vector<Reason> reasons_;
};

const FaultPosterior& sound_of(const Posterior& posterior) {
    return *std::ranges::find(posterior, Primitive::none,
                              [](const FaultPosterior& p) { return p.fault->primitive; });
}

} // namespace

std::vector<Reason> reasons_for(const CoilFinding& finding, double temperature_c) {
    const Posterior& posterior = finding.posterior;
    const CoilPrior& prior = finding.history.prior;
    const FaultPosterior& first = posterior.front();
    if (first.fault->primitive == Primitive::unlisted || posterior.size() < 2) return {};
    const Side leader = side_of(first, prior);
    if (leader.primitive() != Primitive::none) {
        const Side sound = sound_side(sound_of(posterior), leader, prior, finding.evidence);
        return Reasoning(leader, sound, finding, temperature_c).strongest_first();
    }
    const auto runner_up = std::find_if(posterior.begin() + 1, posterior.end(), [](const FaultPosterior& p) {
        return p.fault->primitive != Primitive::unlisted;
    });
    if (runner_up == posterior.end()) return {};
    return Reasoning(leader, side_of(*runner_up, prior), finding, temperature_c).strongest_first();
}

} // namespace coilward
