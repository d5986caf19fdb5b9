#include "diagnosis/coil_prior.h"

#include "diagnosis/prediction.h"
#include "diagnosis/read_form.h"
#include "metrology/log_normal.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include <boost/math/tools/toms748_solve.hpp>

namespace coilward {
namespace {

// The share of a variance that each of two causes keeps at least.
constexpr double least_share = 1.0 / 9.0;
/// The first unknowns: turns, ohm per turn, henry per turn².
constexpr Eigen::Index winding_unknowns = static_cast<Eigen::Index>(Unknown::henry_per_turn2) + 1;

double deviation_of_rest(double whole, double part) {
    return std::sqrt(std::max(whole * whole - part * part, whole * whole * least_share));
}

/// Eddy currents of an unknown construction: own estimate, wide enough for bare rods and for a steel core
/// under a brass cover; no published figure.
constexpr LogNormal usual_eddy_share{0.06, 1.0};
/// How fast eddy currents die away differs between constructions. The slowest current in a long cylinder of
/// radius a dies with μσa²/2.405² (diffusion; the first zero of the Bessel function J0): 10 µs for an alnico
/// rod (0.47 µΩ·m, relative permeability 4, 4.8 mm thick). A steel one (0.17 µΩ·m, permeability 150) would
/// come to a millisecond, but a pole is short: as an ellipsoid four times as long as thick it demagnetises
/// itself by N = 0.075 (the closed form in any textbook on magnetism), which leaves 150 / (1 + 149 N) = 12 of
/// its permeability and 90 µs. A brass cover of 0.5 mm comes to some 50 µs. Covers and steel are what loses
/// most, hence this middle; 95 % from 25 to 260 µs. Quicker currents show at a bench's frequencies only as
/// share times time, which a smaller share gives as well.
constexpr LogNormal usual_eddy_time{8.0e-5, 0.6};
/// A sound coil to its frame: 10 MΩ is the least that a bench expects (common practice), gigaohms are usual.
constexpr LogNormal usual_insulation{2.0e10, 2.0};
/// Room temperature where nobody read a thermometer.
constexpr double usual_temperature_c = 21.0;
constexpr double usual_temperature_deviation_k = 5.0;
/// Only the product with the others shows in a reading, so a silent model's turns are a matter of scale.
constexpr double scale_turns = 8000.0;

struct Expectation {
    LogNormal turns;
    LogNormal resistance;
    LogNormal inductance;
    LogNormal self_capacitance;
    LogNormal frame_capacitance;
    std::optional<LogNormal> quality_factor;
    double frequency_hz = 1000.0;
    Circuit circuit = Circuit::series;
};

/// The allowed inductance: by itself, or from the resistance by L/R², whichever is narrower.
LogNormal allowed_inductance(const AllowedRanges& allowed, const LogNormal& resistance) {
    const LogNormal plain = log_normal(allowed.inductance_h.value_or(Range{0.5, 15.0}));
    if (!allowed.inductance_per_ohm2) return plain;
    const LogNormal ratio = log_normal(*allowed.inductance_per_ohm2);
    const LogNormal tied =
        product(ratio, {resistance.median * resistance.median, 2.0 * resistance.deviation});
    return tied.deviation < plain.deviation ? tied : plain;
}

Expectation expectation_of(const CoilModel& model, const AllowedRanges& allowed,
                           std::vector<std::string>& notes) {
    const auto filled = [&](const std::optional<Range>& own, const std::optional<Range>& allowance,
                            Range widest, const char* what) {
        if (!own) notes.push_back(std::string("the coil model gives no ") + what + ": taken as wide as any");
        return log_normal(own ? *own : allowance.value_or(widest));
    };
    Expectation e;
    e.resistance = log_normal(model.dc_resistance_ohm);
    e.turns = model.turns ? log_normal(*model.turns) : LogNormal{scale_turns, 0.5 * e.resistance.deviation};
    if (model.inductance_h) {
        e.inductance = log_normal(*model.inductance_h);
        e.frequency_hz = model.test_frequency_hz;
        e.circuit = model.circuit;
    } else {
        notes.emplace_back("the coil model gives no inductance: taken as wide as any");
        e.inductance = allowed_inductance(allowed, e.resistance);
    }
    if (model.quality_factor) e.quality_factor = log_normal(*model.quality_factor);
    e.self_capacitance =
        filled(model.self_capacitance_f, allowed.self_capacitance_f, {30e-12, 300e-12}, "self-capacitance");
    e.frame_capacitance =
        filled(model.frame_capacitance_f, allowed.frame_capacitance_f, {5e-12, 200e-12}, "frame capacitance");
    return e;
}

double predicted(const Values& values, Quantity quantity, Circuit circuit, double frequency_hz) {
    const CircuitUnderTest healthy = circuit_of(Primitive::none, values);
    const auto z = impedance(healthy.coil, healthy.fault, CoilPort::leads, frequency_hz);
    return read_form(quantity, circuit, z, 2.0 * std::numbers::pi * frequency_hz)->value;
}

void fit_inductance(Values& values, const Expectation& e) {
    const double shown = predicted(values, Quantity::inductance, e.circuit, e.frequency_hz);
    if (shown > 0.0) at(values, Unknown::henry_per_turn2) += std::log(e.inductance.median / shown);
}

/// The eddy share at which the coil shows the middle of the model's quality factors: more share is more loss.
/// A coil that is lossier than its model even without eddy currents keeps the least share, and one that is
/// better with any the greatest.
void fit_eddy_share(Values& values, const Expectation& e) {
    double& share = at(values, Unknown::eddy_share);
    const auto too_good = [&](double log_share) {
        share = log_share;
        return predicted(values, Quantity::quality_factor, e.circuit, e.frequency_hz) -
               e.quality_factor->median;
    };
    const double low = std::log(0.002);
    const double high = std::log(0.9);
    const double at_low = too_good(low);
    const double at_high = too_good(high);
    if (at_low <= 0.0 || at_high >= 0.0) {
        share = at_low <= 0.0 ? low : high;
        return;
    }
    constexpr int bits = 24;
    std::uintmax_t most_steps = 60;
    share = boost::math::tools::toms748_solve(too_good, low, high, at_low, at_high,
                                              boost::math::tools::eps_tolerance<double>(bits), most_steps)
                .first;
}

Values medians(const Expectation& e) {
    Values values{};
    const auto set = [&](Unknown unknown, double number) {
        at(values, unknown) = to_measure(unknown, number);
    };
    set(Unknown::turns, e.turns.median);
    set(Unknown::ohm_per_turn, e.resistance.median / e.turns.median);
    set(Unknown::henry_per_turn2, e.inductance.median / (e.turns.median * e.turns.median));
    set(Unknown::self_capacitance, e.self_capacitance.median);
    set(Unknown::frame_capacitance, e.frame_capacitance.median);
    set(Unknown::eddy_share, usual_eddy_share.median);
    set(Unknown::eddy_time, usual_eddy_time.median);
    set(Unknown::frame_insulation, usual_insulation.median);
    set(Unknown::temperature, 20.0);
    constexpr int most_rounds = 6;
    constexpr double settled = 1e-6;
    for (int round = 0; round < most_rounds; ++round) { // each disturbs the other a little
        const Values before = values;
        fit_inductance(values, e);
        if (e.quality_factor) fit_eddy_share(values, e);
        if (std::abs(at(values, Unknown::henry_per_turn2) - at(before, Unknown::henry_per_turn2)) < settled)
            break;
    }
    set(Unknown::temperature, usual_temperature_c);
    return values;
}

/// How the logarithm of what a healthy coil of the model shows at 20 °C moves with the coil's unknowns.
Vector log_slopes(const Values& values, const Expectation& e, Quantity quantity) {
    Values at_20 = values;
    at(at_20, Unknown::temperature) = 20.0;
    Reading reading{.quantity = quantity, .between = Between::leads};
    if (quantity != Quantity::dc_resistance) {
        reading.circuit = e.circuit;
        reading.frequency_hz = e.frequency_hz;
    }
    const Prediction shown = *predict(reading, Primitive::none, at_20);
    Vector slopes(coil_unknown_count);
    for (std::size_t k = 0; k < coil_unknown_count; ++k)
        slopes[static_cast<Eigen::Index>(k)] = shown.slope[k] / shown.value;
    slopes[static_cast<Eigen::Index>(Unknown::temperature)] = 0.0;
    return slopes;
}

/// The covariance of the logarithms of what the model gives ranges of: turns, R, L and perhaps Q. What the
/// winding itself (turns, wire, henry per turn²) makes of it stands, and of Q's own range the rest is eddy
/// currents'.
Matrix expected_covariance(const Matrix& slopes, const Matrix& unknowns, const Expectation& e) {
    Matrix expected = slopes.leftCols(winding_unknowns) *
                      unknowns.topLeftCorner(winding_unknowns, winding_unknowns) *
                      slopes.leftCols(winding_unknowns).transpose();
    if (!e.quality_factor) return expected;
    const Eigen::Index q = expected.rows() - 1;
    const double whole = e.quality_factor->deviation * e.quality_factor->deviation;
    const double of_winding = std::min(expected(q, q), whole * (1.0 - least_share));
    const double scale = std::sqrt(of_winding / expected(q, q));
    expected.row(q) *= scale;
    expected.col(q) *= scale;
    expected(q, q) = whole;
    return expected;
}

/// The unknowns' covariance once what they make a coil show is distributed as its model says, and nothing
/// else about them is changed (probability kinematics; R. C. Jeffrey, The Logic of Decision, 1965, ch. 11;
/// for normal distributions S − K (J S Jᵀ − V) Kᵀ with K = S Jᵀ (J S Jᵀ)⁻¹): the ways in which eddy currents
/// and capacitance could differ without being seen stay as wide as they were.
Matrix as_the_model_says(const Matrix& unknowns, const Values& values, const Expectation& e) {
    std::vector<Quantity> given{Quantity::dc_resistance, Quantity::inductance};
    if (e.quality_factor) given.push_back(Quantity::quality_factor);
    Matrix slopes = Matrix::Zero(static_cast<Eigen::Index>(1 + given.size()), coil_unknown_count);
    slopes(0, static_cast<Eigen::Index>(Unknown::turns)) = 1.0;
    for (std::size_t i = 0; i < given.size(); ++i)
        slopes.row(static_cast<Eigen::Index>(1 + i)) = log_slopes(values, e, given[i]).transpose();
    const Matrix shown = slopes * unknowns * slopes.transpose();
    const Matrix gain = shown.llt().solve(slopes * unknowns).transpose();
    return unknowns - gain * (shown - expected_covariance(slopes, unknowns, e)) * gain.transpose();
}

} // namespace

CoilPrior coil_prior(const CoilModel& model, const AllowedRanges& allowed) {
    CoilPrior prior;
    const Expectation e = expectation_of(model, allowed, prior.notes);
    prior.mean = medians(e);
    const double ohm_deviation = deviation_of_rest(e.resistance.deviation, e.turns.deviation);
    const double henry_deviation = deviation_of_rest(e.inductance.deviation, 2.0 * e.turns.deviation);

    Vector deviation(coil_unknown_count);
    const auto set = [&](Unknown unknown, double value) { deviation[static_cast<int>(unknown)] = value; };
    set(Unknown::turns, e.turns.deviation);
    set(Unknown::ohm_per_turn, ohm_deviation);
    set(Unknown::henry_per_turn2, henry_deviation);
    set(Unknown::self_capacitance, e.self_capacitance.deviation);
    set(Unknown::frame_capacitance, e.frame_capacitance.deviation);
    set(Unknown::eddy_share, usual_eddy_share.deviation);
    set(Unknown::eddy_time, usual_eddy_time.deviation);
    set(Unknown::frame_insulation, usual_insulation.deviation);
    set(Unknown::temperature, usual_temperature_deviation_k);
    prior.precision = inverse(as_the_model_says(deviation.cwiseAbs2().asDiagonal(), prior.mean, e));
    return prior;
}

double deviation_of(const CoilPrior& prior, Unknown unknown) {
    const auto k = static_cast<Eigen::Index>(unknown);
    return std::sqrt(inverse(prior.precision)(k, k));
}

} // namespace coilward
