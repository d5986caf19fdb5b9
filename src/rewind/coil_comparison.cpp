#include "rewind/coil_comparison.h"

#include "metrology/correlated.h"
#include "metrology/normal.h"
#include "rewind/checked_quantity.h"
#include "rewind/hum_cancelling.h"
#include "rewind/temperature.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

#include <boost/math/distributions/normal.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

bool is_compared(const Reading& reading) {
    return reading.between == Between::leads && !reading.handling &&
           reading.quantity != Quantity::temperature && !is_polarity(reading.quantity) &&
           reading.quantity != Quantity::dc_voltage;
}

/// What was asked of any of the coils, once each, with the coil's name left out.
std::vector<Reading> questions_of(const std::vector<ComparedCoil>& coils) {
    std::vector<Reading> questions;
    for (const ComparedCoil& coil : coils)
        for (const StoredReading& stored : coil.readings) {
            if (stored.reading.coil != coil.coil || !is_compared(stored.reading)) continue;
            Reading question{.quantity = stored.reading.quantity,
                             .circuit = stored.reading.circuit,
                             .frequency_hz = stored.reading.frequency_hz};
            if (std::ranges::none_of(questions,
                                     [&](const Reading& known) { return same_question(known, question); }))
                questions.push_back(question);
        }
    std::ranges::stable_sort(questions, {}, &Reading::quantity);
    return questions;
}

/// The coil's answer, and the meter that gave it.
struct Answer {
    ComparedValue value;
    std::string meter; ///< with its port; empty where a person typed it in
};

Answer answer_of(const ComparedCoil& coil, const Reading& question, const ConfirmationRule& rule) {
    const Requirement anything{
        .quantity = question.quantity,
        .frequency_hz = question.frequency_hz,
        .circuit = question.circuit,
        .limits = {-std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()}};
    const auto temperature = temperature_in(coil.readings).value_or(usual_room_c);
    const Checked checked = check(anything, coil.readings, coil.coil, temperature, rule);
    Answer answer{.value = {std::nullopt, checked.says}, .meter = {}};
    if (checked.judged.standard_uncertainty > 0.0) answer.value.value = checked.judged;
    if (checked.reading && !checked.reading->meter.empty())
        answer.meter = checked.reading->meter + " " + checked.reading->port;
    return answer;
}

ComparedPair pair_of(std::size_t first, std::size_t second, const std::vector<Answer>& answers,
                     double same_meter_correlation) {
    const Uncertain a = *answers[first].value.value;
    const Uncertain b = *answers[second].value.value;
    const bool same_meter = !answers[first].meter.empty() && answers[first].meter == answers[second].meter;
    const double shared =
        same_meter ? same_meter_correlation * a.standard_uncertainty * b.standard_uncertainty : 0.0;
    const Correlated inputs{{a.value, b.value},
                            {a.standard_uncertainty * a.standard_uncertainty, shared, shared,
                             b.standard_uncertainty * b.standard_uncertainty}};
    const std::array<std::vector<double>, 2> sensitivities{
        {{-1.0, 1.0}, {-b.value / (a.value * a.value), 1.0 / a.value}}};
    const Correlated results = propagated(inputs, {b.value - a.value, b.value / a.value}, sensitivities);
    const double u = results.standard_uncertainty(0);
    return {.first = first,
            .second = second,
            .difference = {b.value - a.value, u},
            .ratio = results.values[1],
            .ratio_uncertainty = results.standard_uncertainty(1),
            .deviations = std::abs(b.value - a.value) / u};
}

ComparedQuantity compared(const Reading& question, const std::vector<ComparedCoil>& coils,
                          const ComparisonRule& rule) {
    ComparedQuantity quantity{.question = question};
    const ConfirmationRule reading_rule{.bench = rule.bench};
    std::vector<Answer> answers;
    for (const ComparedCoil& coil : coils) {
        answers.push_back(answer_of(coil, question, reading_rule));
        quantity.values.push_back(answers.back().value);
    }
    for (std::size_t first = 0; first < answers.size(); ++first)
        for (std::size_t second = first + 1; second < answers.size(); ++second)
            if (answers[first].value.value && answers[second].value.value)
                quantity.pairs.push_back(pair_of(first, second, answers, rule.same_meter_correlation));
    return quantity;
}

/// "Neck, slug (2026-03-02, as received)"
std::string title_of(const Pickup& pickup, const std::string& coil, const Visit& visit) {
    return fmt::format("{}{}{} ({}{}{})", pickup.name, coil.empty() ? "" : ", ", coil,
                       text_of(visit.at).substr(0, 10), visit.stage.empty() ? "" : ", ", visit.stage);
}

} // namespace

ComparedCoil compared_coil(const History& history, const Pickup& pickup, const std::string& coil,
                           const Visit& visit) {
    return {.title = title_of(pickup, coil, visit),
            .coil = coil,
            .pickup = pickup,
            .visit = visit,
            .readings = current_readings(history.readings_of(visit.id))};
}

CoilComparison compare(std::vector<ComparedCoil> coils, const ComparisonRule& rule) {
    if (coils.size() < 2) throw std::invalid_argument("a comparison needs two coils or more");
    CoilComparison comparison{
        .coils = std::move(coils), .confidence = rule.confidence, .correlation = rule.same_meter_correlation};
    std::size_t pairs = 0;
    for (const Reading& question : questions_of(comparison.coils)) {
        comparison.quantities.push_back(compared(question, comparison.coils, rule));
        pairs += comparison.quantities.back().pairs.size();
    }
    const double each = (1.0 - rule.confidence) / static_cast<double>(std::max<std::size_t>(pairs, 1));
    comparison.needed_deviations =
        boost::math::quantile(boost::math::complement(boost::math::normal(), each / 2.0));
    for (ComparedQuantity& quantity : comparison.quantities)
        for (ComparedPair& pair : quantity.pairs)
            pair.significant = pair.deviations > comparison.needed_deviations;
    if (rule.hum_cancelling_pair) comparison.hum = hum_cancelling(comparison);
    return comparison;
}

std::string per_cent_in_words(const ComparedPair& pair) {
    const double hundredths = std::round(1e4 * (pair.ratio - 1.0));
    // What rounds to nothing has no sign of its own.
    return fmt::format("{:+.2f} ± {:.2f} %", hundredths == 0.0 ? 0.0 : hundredths / 100.0,
                       100.0 * pair.ratio_uncertainty);
}

} // namespace coilward
