#include "diagnosis/next_reading.h"

#include "diagnosis/bordered.h"
#include "diagnosis/evidence.h"
#include "diagnosis/forecast.h"
#include "diagnosis/kick.h"
#include "diagnosis/mutual_information.h"
#include "diagnosis/prediction.h"
#include "diagnosis/response.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace coilward {
namespace {

constexpr double least_probability = 1e-3; // of a fault that is worth a forecast
constexpr std::size_t most_explanations = 3;

/// Forecasts of readings by every explanation that carries weight.
class Forecasting {
public:
    Forecasting(const Posterior& posterior) {
        for (std::size_t fault = 0; fault < posterior.size(); ++fault) {
            const FaultPosterior& candidate = posterior[fault];
            if (candidate.probability < least_probability) continue;
            if (candidate.explanations.empty()) unlisted_ = AnythingGoes{fault, candidate.probability};
            const std::size_t count = std::min(most_explanations, candidate.explanations.size());
            double kept = 0.0;
            for (std::size_t i = 0; i < count; ++i)
                kept += candidate.explanations[i].weight;
            for (std::size_t i = 0; i < count; ++i) {
                const Explanation& e = candidate.explanations[i];
                sources_.push_back({fault, candidate.probability * e.weight / kept,
                                    candidate.fault->primitive, values_at(e.component, e.mode.unknowns),
                                    e.component, BorderedCholesky(e.mode.information)});
            }
        }
    }

    double gain_bits_of(const Reading& question, const BenchReading& bench) const {
        std::vector<Forecast> forecasts;
        for (const Source& source : sources_)
            forecasts.push_back(forecast_by(source, question, bench));
        return gain_bits(std::move(forecasts), unlisted_);
    }

private:
    struct Source {
        std::size_t fault = 0;
        double weight = 0.0;
        Primitive primitive{};
        Values values{};
        Component component;
        BorderedCholesky information;
    };

    static Forecast forecast_by(const Source& source, const Reading& question, const BenchReading& bench) {
        // A load that is lifted off is no longer there.
        const bool freed = question.handling == Handling::lifted && source.primitive == Primitive::load;
        const auto prediction = predict(question, freed ? Primitive::none : source.primitive, source.values);
        if (!prediction) return {source.fault, source.weight, 0.0, 1.0};
        Vector slope(static_cast<Eigen::Index>(unknowns_of(source.component)));
        for (Eigen::Index k = 0; k < slope.size(); ++k)
            slope[k] = prediction->slope[static_cast<std::size_t>(
                unknown_at(source.component, static_cast<std::size_t>(k)))];
        const double deviation = std::sqrt(source.information.quadratic_form(slope));
        return as_read({source.fault, source.weight, prediction->value, deviation}, bench);
    }

    std::vector<Source> sources_;
    std::optional<AnythingGoes> unlisted_;
};

/// Of the kick, or of a compass.
double polarity_gain_bits(const Posterior& posterior, Quantity quantity) {
    return mutual_information_bits<3>(posterior, [&](const FaultPosterior& p) {
        const PolarityChances c = quantity == Quantity::polarity ? kick_chances(p) : p.fault->magnet_pole;
        return std::array{c.as_expected, c.reversed, c.none};
    });
}

/// The same reading of the coil at rest, once it has a number or is out of range: then a handled one can be
/// held against it.
const Reading* at_rest_beside(Reading question, const std::vector<Reading>& taken) {
    question.handling.reset();
    const auto found = std::ranges::find_if(taken, [&](const Reading& reading) {
        return is_taken(question, {reading}) && reading.state != State::unstable;
    });
    return found == taken.end() ? nullptr : &*found;
}

class Choosing {
public:
    Choosing(const Rules& rules, const Posterior& posterior, const std::vector<Reading>& taken)
        : rules_(rules), posterior_(posterior), taken_(taken), forecasting_(posterior) {}

    std::vector<NextReading> best_first() {
        for (const BenchReading& bench : rules_.bench_readings)
            offer(bench, [&] { return gain_at_rest(bench); });
        for (const BenchReading& bench : rules_.handled_readings)
            offer(bench, [&] { return gain_handled(bench); });
        std::ranges::stable_sort(next_, std::greater{},
                                 [](const NextReading& n) { return n.gain_bits / n.seconds; });
        return std::move(next_);
    }

private:
    template <typename Gain>
    void offer(const BenchReading& bench, Gain gain_of) {
        const Reading question = question_of(bench);
        if (is_taken(question, taken_) || bench.quantity == Quantity::dc_voltage) return;
        const double gain = gain_of();
        if (gain > least_gain_bits)
            next_.push_back({describe(question), bench.how, gain, bench.seconds, question});
    }

    double gain_at_rest(const BenchReading& bench) const {
        if (is_polarity(bench.quantity)) return polarity_gain_bits(posterior_, bench.quantity);
        return forecasting_.gain_bits_of(question_of(bench), bench);
    }

    double gain_handled(const BenchReading& bench) const {
        const Reading question = question_of(bench);
        const Reading* at_rest = at_rest_beside(question, taken_);
        if (!at_rest) return 0.0;
        if (bench.handling != Handling::lifted)
            return response_gain_bits(posterior_, *bench.handling, *at_rest,
                                      at_rest->value ? uncertainty_of(*at_rest, rules_) : 0.0);
        return at_rest->state == State::ok ? forecasting_.gain_bits_of(question, bench) : 0.0;
    }

    const Rules& rules_;
    const Posterior& posterior_;
    const std::vector<Reading>& taken_;
    Forecasting forecasting_;
    std::vector<NextReading> next_;
};

} // namespace

Reading question_of(const BenchReading& bench) {
    Reading question{.quantity = bench.quantity, .between = bench.between};
    question.frequency_hz = bench.frequency_hz;
    question.handling = bench.handling;
    return question;
}

bool is_taken(const Reading& question, const std::vector<Reading>& taken) {
    return std::ranges::any_of(taken, [&](const Reading& reading) {
        return reading.quantity == question.quantity && reading.between == question.between &&
               reading.frequency_hz == question.frequency_hz && reading.handling == question.handling;
    });
}

std::vector<NextReading> next_readings(const Rules& rules, const Posterior& posterior,
                                       const std::vector<Reading>& taken) {
    return Choosing(rules, posterior, taken).best_first();
}

} // namespace coilward
