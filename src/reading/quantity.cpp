#include "reading/quantity.h"

#include <algorithm>
#include <array>
#include <utility>

namespace coilward {
namespace {

template <typename Kind, std::size_t Count>
using Names = std::array<std::pair<Kind, std::string_view>, Count>;

constexpr Names<Quantity, 14> quantity_names{{
    {Quantity::temperature, "temperature"},
    {Quantity::dc_resistance, "dc_resistance"},
    {Quantity::inductance, "inductance"},
    {Quantity::ac_resistance, "ac_resistance"},
    {Quantity::quality_factor, "quality_factor"},
    {Quantity::dissipation_factor, "dissipation_factor"},
    {Quantity::impedance_magnitude, "impedance_magnitude"},
    {Quantity::phase_angle, "phase_angle"},
    {Quantity::capacitance, "capacitance"},
    {Quantity::insulation_resistance, "insulation_resistance"},
    {Quantity::dc_voltage, "dc_voltage"},
    {Quantity::polarity, "polarity"},
    {Quantity::resonance_frequency, "resonance_frequency"},
    {Quantity::magnet_pole, "magnet_pole"},
}};

constexpr Names<Between, 6> between_names{{
    {Between::leads, "leads"},
    {Between::start_frame, "start-frame"},
    {Between::finish_frame, "finish-frame"},
    {Between::start_shield, "start-shield"},
    {Between::finish_shield, "finish-shield"},
    {Between::leads_frame, "leads-frame"},
}};

constexpr Names<Circuit, 2> circuit_names{{{Circuit::series, "series"}, {Circuit::parallel, "parallel"}}};

constexpr Names<State, 4> state_names{{
    {State::ok, "ok"},
    {State::over_range, "over_range"},
    {State::under_range, "under_range"},
    {State::unstable, "unstable"},
}};

constexpr Names<Polarity, 3> polarity_names{{
    {Polarity::as_expected, "as_expected"},
    {Polarity::reversed, "reversed"},
    {Polarity::none, "none"},
}};

constexpr Names<Handling, 3> handling_names{{
    {Handling::warmed, "warmed"},
    {Handling::pressed, "pressed"},
    {Handling::lifted, "lifted"},
}};

template <typename Kind, std::size_t Count>
std::string_view name_in(const Names<Kind, Count>& names, Kind kind) {
    return std::ranges::find(names, kind, &std::pair<Kind, std::string_view>::first)->second;
}

template <typename Kind, std::size_t Count>
std::optional<Kind> kind_in(const Names<Kind, Count>& names, std::string_view word) {
    const auto found = std::ranges::find(names, word, &std::pair<Kind, std::string_view>::second);
    if (found == names.end()) return std::nullopt;
    return found->first;
}

template <typename Kind, std::size_t Count>
std::vector<std::string_view> words_of(const Names<Kind, Count>& names) {
    std::vector<std::string_view> words;
    for (const auto& [kind, word] : names)
        words.push_back(word);
    return words;
}

} // namespace

std::string_view name(Quantity quantity) {
    return name_in(quantity_names, quantity);
}

std::string_view name(Between between) {
    return name_in(between_names, between);
}

std::string_view name(Circuit circuit) {
    return name_in(circuit_names, circuit);
}

std::string_view name(State state) {
    return name_in(state_names, state);
}

std::string_view name(Polarity polarity) {
    return name_in(polarity_names, polarity);
}

std::string_view name(Handling handling) {
    return name_in(handling_names, handling);
}

std::optional<Quantity> quantity_named(std::string_view word) {
    return kind_in(quantity_names, word);
}

std::optional<Between> between_named(std::string_view word) {
    return kind_in(between_names, word);
}

std::optional<Circuit> circuit_named(std::string_view word) {
    return kind_in(circuit_names, word);
}

std::optional<State> state_named(std::string_view word) {
    return kind_in(state_names, word);
}

std::optional<Polarity> polarity_named(std::string_view word) {
    return kind_in(polarity_names, word);
}

std::optional<Handling> handling_named(std::string_view word) {
    return kind_in(handling_names, word);
}

template <>
std::vector<std::string_view> all_names<Quantity>() {
    return words_of(quantity_names);
}

template <>
std::vector<std::string_view> all_names<Between>() {
    return words_of(between_names);
}

template <>
std::vector<std::string_view> all_names<Circuit>() {
    return words_of(circuit_names);
}

template <>
std::vector<std::string_view> all_names<State>() {
    return words_of(state_names);
}

template <>
std::vector<std::string_view> all_names<Polarity>() {
    return words_of(polarity_names);
}

template <>
std::vector<std::string_view> all_names<Handling>() {
    return words_of(handling_names);
}

std::string_view unit(Quantity quantity) {
    switch (quantity) {
    case Quantity::temperature:
        return "degC";
    case Quantity::dc_resistance:
    case Quantity::ac_resistance:
    case Quantity::impedance_magnitude:
    case Quantity::insulation_resistance:
        return "ohm";
    case Quantity::inductance:
        return "H";
    case Quantity::quality_factor:
    case Quantity::dissipation_factor:
        return "1";
    case Quantity::phase_angle:
        return "rad";
    case Quantity::capacitance:
        return "F";
    case Quantity::dc_voltage:
        return "V";
    case Quantity::polarity:
    case Quantity::magnet_pole:
        return "";
    case Quantity::resonance_frequency:
        return "Hz";
    }
    return "";
}

bool is_polarity(Quantity quantity) {
    return quantity == Quantity::polarity || quantity == Quantity::magnet_pole;
}

bool needs_frequency(Quantity quantity) {
    switch (quantity) {
    case Quantity::inductance:
    case Quantity::ac_resistance:
    case Quantity::quality_factor:
    case Quantity::dissipation_factor:
    case Quantity::impedance_magnitude:
    case Quantity::phase_angle:
    case Quantity::capacitance:
        return true;
    default:
        return false;
    }
}

} // namespace coilward
