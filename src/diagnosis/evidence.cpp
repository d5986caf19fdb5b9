#include "diagnosis/evidence.h"

#include "diagnosis/model_error.h"
#include "diagnosis/read_form.h"
#include "units/engineering.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>

#include <fmt/format.h>

namespace coilward {
namespace {

// Where a meter's range ends when the document does not say: ordinary multimeters give up between some
// megaohms and some hundred (20 to 60 MΩ is usual; common practice, no published source), LCR meters, asked
// for an inductance or a resistance, between tens of kiloohms and some megaohms.
constexpr double usual_ohmmeter_limit_ohm = 2e7;
constexpr double usual_lcr_limit_ohm = 3e5;
constexpr double unknown_limit_log_deviation = 1.2;
constexpr double known_limit_log_deviation = 0.03;

bool is_direct_current(Quantity quantity) {
    return quantity == Quantity::dc_resistance || quantity == Quantity::insulation_resistance;
}

const BenchReading* bench_reading_for(const Rules& rules, const Reading& reading) {
    const BenchReading* best = nullptr;
    for (const BenchReading& candidate : rules.bench_readings) {
        if (candidate.quantity != reading.quantity) continue;
        if (!best || candidate.between == reading.between) best = &candidate;
    }
    return best;
}

/// An ordinary bench meter's uncertainty of the reading.
double usual_uncertainty(const Reading& reading, const Rules& rules) {
    const BenchReading* usual = bench_reading_for(rules, reading);
    const double relative = usual ? usual->relative_uncertainty : 0.02;
    const double absolute = usual ? usual->absolute_uncertainty : 0.0;
    return std::hypot(relative * *reading.value, absolute);
}

void note_assumed_uncertainty(const Reading& reading, const Rules& rules, std::vector<std::string>& notes) {
    if (reading.standard_uncertainty || (reading.state == State::unstable && reading.spread)) return;
    notes.push_back(fmt::format("{}: no uncertainty given, {} assumed as of an ordinary bench meter",
                                describe(reading),
                                engineering(usual_uncertainty(reading, rules), unit(reading.quantity), 2)));
}

/// The probe of this port and frequency, made beside those of its frequency where there is none yet.
Probe& probe_for(std::vector<Probe>& probes, CoilPort port, double frequency_hz) {
    auto place = probes.end();
    for (auto probe = probes.begin(); probe != probes.end(); ++probe) {
        if (probe->frequency_hz != frequency_hz) continue;
        if (probe->port == port) return *probe;
        place = probe + 1;
    }
    return *probes.insert(place, Probe{port, frequency_hz, {}});
}

/// Over or under range. A limit of an inductance is turned into the reactance that it stands for; one of Q or
/// D says nothing about impedance, and then the usual limit of an LCR meter is taken.
Answer state_answer(const Reading& reading, std::size_t index, double frequency_hz) {
    Answer answer{.reading = index, .quantity = reading.quantity, .state = reading.state};
    std::optional<double> limit_ohm;
    if (reading.limit) {
        if (reading.quantity == Quantity::inductance)
            limit_ohm = 2.0 * std::numbers::pi * frequency_hz * *reading.limit;
        if (unit(reading.quantity) == "ohm") limit_ohm = *reading.limit;
    }
    answer.limit_ohm = limit_ohm.value_or(is_direct_current(reading.quantity) ? usual_ohmmeter_limit_ohm
                                                                              : usual_lcr_limit_ohm);
    answer.limit_log_deviation = limit_ohm ? known_limit_log_deviation : unknown_limit_log_deviation;
    return answer;
}

/// No meter shows more, or is surer, than this: nanovolts to exaohms lie between, and squares keep their
/// digits.
constexpr double greatest_shown = 1e18;
constexpr double least_uncertainty = 1e-24;
// A resistance thermometer's (IEC 60751), and what a probe's wire lasts.
constexpr double least_temperature_c = -200.0;
constexpr double greatest_temperature_c = 1000.0;
constexpr double greatest_frequency_hz = 1e9; // where a coil is no coil any more

} // namespace

bool can_be_temperature(double degrees_c) {
    return degrees_c >= least_temperature_c && degrees_c <= greatest_temperature_c;
}

bool is_measurable(const Reading& reading) {
    const double greatest =
        reading.quantity == Quantity::temperature ? greatest_temperature_c : greatest_shown;
    const auto within = [&](const std::optional<double>& number, double least) {
        return !number || (std::abs(*number) >= least && std::abs(*number) <= greatest);
    };
    if (reading.quantity == Quantity::temperature && reading.value && !can_be_temperature(*reading.value))
        return false;
    return within(reading.value, 0.0) && within(reading.standard_uncertainty, least_uncertainty) &&
           within(reading.spread, 0.0) && within(reading.limit, least_uncertainty) &&
           (!reading.frequency_hz || *reading.frequency_hz <= greatest_frequency_hz);
}

namespace {

bool is_ratio_of_parts(const Answer& answer) {
    return answer.quantity == Quantity::quality_factor || answer.quantity == Quantity::dissipation_factor;
}

/// Some meters give Q and D the sign of the reactance, some do not; the inductance beside tells it, where it
/// stands clear of zero.
void sign_ratios(Probe& probe) {
    const auto clear = [](const Answer& answer) {
        return answer.quantity == Quantity::inductance && answer.state == State::ok &&
               std::abs(answer.value) > 3.0 * answer.deviation;
    };
    const auto inductance = std::ranges::find_if(probe.answers, clear);
    const bool known = inductance != probe.answers.end();
    for (Answer& answer : probe.answers) {
        if (!is_ratio_of_parts(answer)) continue;
        answer.is_signed = known || answer.value < 0.0;
        if (known) answer.value = std::copysign(answer.value, inductance->value);
    }
}

/// All usable repeats of one question as one number.
struct Mean {
    double value = 0.0;
    double deviation = 0.0;
};

/// Weighted by uncertainty. Repeats that disagree beyond their uncertainties widen it (the Birge ratio).
Mean weighted_mean(const std::vector<Reading>& repeats, const Rules& rules, std::vector<std::string>& notes) {
    std::vector<double> weights;
    double sum_of_weights = 0.0;
    double sum = 0.0;
    for (const Reading& reading : repeats) {
        const double u = uncertainty_of(reading, rules);
        note_assumed_uncertainty(reading, rules, notes);
        weights.push_back(1.0 / std::max(u * u, 1e-300));
        sum_of_weights += weights.back();
        sum += weights.back() * *reading.value;
    }
    Mean mean{sum / sum_of_weights, 1.0 / std::sqrt(sum_of_weights)};
    if (repeats.size() == 1) return mean;
    double chi2 = 0.0;
    for (std::size_t i = 0; i < repeats.size(); ++i)
        chi2 += weights[i] * (*repeats[i].value - mean.value) * (*repeats[i].value - mean.value);
    mean.deviation *= std::max(1.0, std::sqrt(chi2 / static_cast<double>(repeats.size() - 1)));
    return mean;
}

class Gathering {
public:
    Gathering(const std::vector<Reading>& readings, const Rules& rules)
        : readings_(readings), rules_(rules) {}

    Evidence all() {
        for (std::size_t i = 0; i < readings_.size(); ++i)
            take(i);
        std::ranges::for_each(evidence_.probes, sign_ratios);
        return std::move(evidence_);
    }

private:
    void take(std::size_t i) {
        const Reading& reading = readings_[i];
        if (reading.quantity == Quantity::polarity) {
            evidence_.polarities.push_back(*reading.polarity);
            return;
        }
        if (!is_measurable(reading)) return leave_out(reading, "its numbers are beyond what any meter shows");
        note_steadiness(reading);
        if (!reading.value && reading.state != State::over_range && reading.state != State::under_range)
            return;
        if (reading.quantity == Quantity::temperature || reading.quantity == Quantity::resonance_frequency)
            return take_plain(i);
        if (reading.quantity == Quantity::dc_voltage)
            return leave_out(reading, "a voltage decides nothing about a resting coil");
        const auto port = port_of(reading.between);
        if (!port) return leave_out(reading, "readings to a shield are kept but not yet weighed");
        take_impedance(i, *port);
    }

    void note_steadiness(const Reading& reading) {
        if (reading.quantity == Quantity::temperature || reading.quantity == Quantity::dc_voltage) return;
        (reading.state == State::unstable ? evidence_.any_unstable : evidence_.any_steady) = true;
    }

    void leave_out(const Reading& reading, const char* why) {
        evidence_.notes.push_back(fmt::format("{}: not used, {}", describe(reading), why));
    }

    /// The repeats of reading i that give a number; empty where i is not the first of them.
    std::vector<Reading> repeats_from(std::size_t i) const {
        const auto repeats = [&](const Reading& other) {
            return other.value && same_question(other, readings_[i]) &&
                   (other.state == State::ok || other.state == State::unstable);
        };
        if (std::any_of(readings_.begin(), readings_.begin() + static_cast<std::ptrdiff_t>(i), repeats))
            return {};
        std::vector<Reading> found;
        std::ranges::copy_if(readings_, std::back_inserter(found), repeats);
        return found;
    }

    void take_plain(std::size_t i) {
        const Reading& reading = readings_[i];
        if (reading.state != State::ok && reading.state != State::unstable)
            return leave_out(reading, "out of the meter's range");
        const auto repeats = repeats_from(i);
        if (repeats.empty()) return;
        const Mean mean = weighted_mean(repeats, rules_, evidence_.notes);
        const bool thermal = reading.quantity == Quantity::temperature;
        const double error = thermal ? ModelError{}.temperature_k : ModelError{}.resonance * mean.value;
        (thermal ? evidence_.temperatures : evidence_.resonances)
            .push_back({i, mean.value, std::hypot(mean.deviation, error)});
    }

    void take_impedance(std::size_t i, CoilPort port) {
        const Reading& reading = readings_[i];
        const double frequency_hz = reading.frequency_hz.value_or(0.0);
        if (reading.state == State::over_range || reading.state == State::under_range) {
            if (reading.quantity == Quantity::capacitance || reading.quantity == Quantity::phase_angle)
                return leave_out(reading, "over range says nothing here");
            probe_for(evidence_.probes, port, frequency_hz)
                .answers.push_back(state_answer(reading, i, frequency_hz));
            return;
        }
        const auto repeats = repeats_from(i);
        if (repeats.empty()) return;
        const Mean mean = weighted_mean(repeats, rules_, evidence_.notes);
        probe_for(evidence_.probes, port, frequency_hz)
            .answers.push_back({.reading = i,
                                .quantity = reading.quantity,
                                .circuit = reading.circuit.value_or(usual_circuit(reading.quantity)),
                                .value = mean.value,
                                .deviation = mean.deviation});
    }

    const std::vector<Reading>& readings_;
    const Rules& rules_;
    Evidence evidence_;
};

} // namespace

double uncertainty_of(const Reading& reading, const Rules& rules) {
    if (reading.state == State::unstable && reading.spread)
        return std::hypot(*reading.spread, reading.standard_uncertainty.value_or(0.0));
    return reading.standard_uncertainty.value_or(usual_uncertainty(reading, rules));
}

Evidence gather(const std::vector<Reading>& readings, const Rules& rules) {
    return Gathering(readings, rules).all();
}

} // namespace coilward
