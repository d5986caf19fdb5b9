#include "meters.h"

#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace population {
namespace {

double standard(double half_width) {
    return half_width / std::numbers::sqrt3;
}

/// One step of the last digit shown.
double count(const Instruments& instruments, double value) {
    return std::pow(10.0, std::ceil(std::log10(std::abs(value) / instruments.display_counts)));
}

double shown(const Instruments& instruments, double value) {
    const double step = count(instruments, value);
    return rounded(std::round(value / step) * step, 9);
}

ReadingJson read_resistance(const Instruments& instruments, const Question& question, const Seen& seen,
                            double limit_ohm, Random& random) {
    const double truth = seen.now.real();
    const double uncertainty = standard(instruments.ohmmeter_relative * truth +
                                        instruments.ohmmeter_counts * count(instruments, truth));
    const double value = shown(instruments, truth + uncertainty * random.normal());
    const double spread = 0.5 * std::abs(seen.high.real() - seen.low.real());
    if (value > limit_ohm) return over_range(question, limit_ohm);
    if (seen.wanders && spread > uncertainty) return wandering(question, value, spread);
    return number(question, value, uncertainty);
}

bool is_impedance_itself(const Question& question) {
    return question.quantity == "impedance_magnitude" || question.quantity == "phase_angle";
}

} // namespace

Instruments draw_instruments(bool errors_joint, Random& random) {
    constexpr std::array<double, 4> usual_ohm_limits{20e6, 40e6, 60e6, 200e6};
    constexpr double cheap_ohm_limit = 2e6;
    constexpr std::array<double, 5> insulation_limits{20e6, 20e6, 20e6, 40e6, 200e6};
    Instruments instruments;
    instruments.ohmmeter_relative = random.uniform(0.001, 0.003);
    instruments.ohmmeter_counts = random.uniform(1.0, 4.0);
    instruments.display_counts = random.chance(0.5) ? 20000.0 : 60000.0;
    instruments.ohmmeter_limit_ohm = usual_ohm_limits[random.below(usual_ohm_limits.size())];
    if (random.chance(0.1)) instruments.ohmmeter_limit_ohm = cheap_ohm_limit;
    instruments.insulation_limit_ohm = insulation_limits[random.below(insulation_limits.size())];
    instruments.lcr_relative = random.uniform(0.002, 0.005);
    instruments.shows_negative = random.chance(0.5);
    instruments.errors_joint = errors_joint;
    return instruments;
}

LcrMeasurement::LcrMeasurement(const Instruments& instruments, const Seen& seen, Random& random)
    : instruments_(instruments), seen_(seen), joint_error_(random.normal(), random.normal()) {}

/// In an impedance too high or of the wrong sign a meter shows no inductance or capacitance, and nothing
/// beside it.
LcrMeasurement::Display LcrMeasurement::display(const Question& question) const {
    const bool capacitance = question.quantity == "capacitance";
    const double largest =
        capacitance || is_impedance_itself(question) || question.quantity == "ac_resistance"
            ? std::numeric_limits<double>::infinity()
            : 9999.0;
    const bool too_high = (!capacitance && std::abs(seen_.now) > instruments_.lcr_limit_ohm) ||
                          std::abs(quantity_of(seen_.now, question)) > largest;
    const bool wrong_sign = capacitance ? seen_.now.imag() > 0.0 : seen_.now.imag() < 0.0;
    if (too_high && is_impedance_itself(question)) return Display::over_range;
    if (!too_high && (!wrong_sign || instruments_.shows_negative || is_impedance_itself(question)))
        return Display::number;
    return question.quantity == "inductance" ? Display::over_range : Display::dashes;
}

/// Basic accuracy, worse away from 1 kHz and at high impedance as the accuracy formulas of bench LCR meters
/// have it.
double LcrMeasurement::relative_half_width(double frequency_hz) const {
    const double frequency_factor = frequency_hz < 500.0 ? 1.5 : 1.0;
    return instruments_.lcr_relative * (frequency_factor + std::abs(seen_.now) / 1e6);
}

std::complex<double> LcrMeasurement::with_joint_error(double relative) const {
    return seen_.now * std::exp(relative * joint_error_);
}

/// The published forms: (1 + 1/Q) for L, (1 + Q) for R and Q, (1 + D) for C and D. With joint errors what
/// follows from equal errors of ln |Z| and of the phase θ, where tan θ = Q, taken at what the meter shows: at
/// a Q of hundreds the phase error can make it thousands, and nobody at the bench knows the true one.
double LcrMeasurement::standard_uncertainty(const Question& question) const {
    const double relative = standard(relative_half_width(question.frequency_hz));
    const bool joint = instruments_.errors_joint;
    const auto z = joint ? with_joint_error(relative) : seen_.now;
    const double size = std::abs(quantity_of(z, question));
    const double q = std::abs(z.imag() / z.real());
    const auto factor = [&](double ratio) { return joint ? std::sqrt(1.0 + ratio * ratio) : 1.0 + ratio; };
    if (question.quantity == "capacitance") return standard(0.01 * size * (1.0 + 1.0 / q) + 0.5e-12);
    if (question.quantity == "impedance_magnitude") return relative * size;
    if (question.quantity == "phase_angle") return relative;
    if (question.quantity == "inductance") return relative * size * factor(1.0 / q);
    if (question.quantity == "ac_resistance") return relative * size * factor(q);
    if (joint) return relative * size * (q + 1.0 / q);
    return relative * size * (1.0 + (question.quantity == "quality_factor" ? q : 1.0 / q));
}

double LcrMeasurement::value_with_error(const Question& question, Random& random) const {
    const double own_error = random.normal();
    if (!instruments_.errors_joint || question.quantity == "capacitance")
        return quantity_of(seen_.now, question) + standard_uncertainty(question) * own_error;
    const double relative = standard(relative_half_width(question.frequency_hz));
    return quantity_of(with_joint_error(relative), question);
}

std::optional<ReadingJson> LcrMeasurement::read(const Question& question, Random& random) const {
    switch (display(question)) {
    case Display::dashes:
        return std::nullopt;
    case Display::over_range:
        return over_range(question, std::nullopt);
    case Display::number:
        break;
    }
    const double value = shown(instruments_, value_with_error(question, random));
    const double uncertainty = standard_uncertainty(question);
    const double spread =
        0.5 * std::abs(quantity_of(seen_.high, question) - quantity_of(seen_.low, question));
    if (seen_.wanders && spread > uncertainty) return wandering(question, value, spread);
    return number(question, value, uncertainty);
}

ReadingJson read_temperature(const Instruments& instruments, double temperature_c, Random& random) {
    const double value = temperature_c + instruments.thermometer_k * random.normal();
    const double tenths = std::round(value * 10.0) / 10.0;
    return number({"temperature", "", "", 0.0}, tenths, instruments.thermometer_k);
}

ReadingJson read_dc_resistance(const Instruments& instruments, const Seen& seen, Random& random) {
    const Question question{"dc_resistance", "leads", "", 0.0};
    return read_resistance(instruments, question, seen, instruments.ohmmeter_limit_ohm, random);
}

ReadingJson read_insulation(const Instruments& instruments, const std::string& between, const Seen& seen,
                            Random& random) {
    const Question question{"insulation_resistance", between, "", 0.0};
    return read_resistance(instruments, question, seen, instruments.insulation_limit_ohm, random);
}

} // namespace population
