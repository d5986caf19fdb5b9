#include "meter/measurement.h"

#include <algorithm>
#include <charconv>
#include <sstream>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::string_view frequency_mark = "{frequency}";

std::optional<double> frequency_named(std::string_view word) {
    double value = 0.0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
    if (error != std::errc{} || end != word.data() + word.size() || !(value > 0.0) || value > 1e9)
        return std::nullopt;
    return value;
}

/// Fits one word behind the quantity into the request.
bool take_word(std::string_view word, MeasurementRequest& request) {
    if (const auto circuit = circuit_named(word); circuit && !request.circuit) {
        request.circuit = circuit;
    } else if (const auto frequency = frequency_named(word); frequency && !request.frequency_hz) {
        request.frequency_hz = frequency;
    } else if (const auto between = between_named(word); between && request.between == Between::leads) {
        request.between = *between;
    } else {
        return false;
    }
    return true;
}

char upper(char letter) {
    return letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A') : letter;
}

/// A meter calls it resistance, wherever its probes are.
Quantity as_meters_call_it(Quantity quantity) {
    return quantity == Quantity::insulation_resistance ? Quantity::dc_resistance : quantity;
}

bool gives(const MeterSetup& setup, Quantity quantity) {
    return std::ranges::find(setup.gives, quantity) != setup.gives.end();
}

bool reaches(const MeterSetup& setup, std::optional<double> frequency_hz) {
    if (!frequency_hz) return true;
    if (setup.frequency_not_stated) return false;
    if (!setup.lowest_frequency_hz) return true; // no test signal: whatever was asked for does not matter
    return *frequency_hz >= *setup.lowest_frequency_hz && *frequency_hz <= *setup.highest_frequency_hz;
}

std::string with_frequency(std::string text, std::optional<double> frequency_hz) {
    if (const std::size_t at = text.find(frequency_mark); at != std::string::npos && frequency_hz)
        text.replace(at, frequency_mark.size(), fmt::format("{}", *frequency_hz));
    return text;
}

} // namespace

std::string to_text(const MeasurementRequest& request) {
    std::string text{name(request.quantity)};
    if (request.circuit) text += fmt::format(" {}", name(*request.circuit));
    if (request.frequency_hz) text += fmt::format(" {}", *request.frequency_hz);
    if (request.between != Between::leads) text += fmt::format(" {}", name(request.between));
    return text;
}

std::optional<MeasurementRequest> request_from_text(std::string_view text) {
    std::istringstream words{std::string(text)};
    std::string word;
    if (!(words >> word)) return std::nullopt;
    const auto quantity = quantity_named(word);
    if (!quantity) return std::nullopt;
    MeasurementRequest request{.quantity = *quantity};
    while (words >> word)
        if (!take_word(word, request)) return std::nullopt;
    return request;
}

const MeterSetup* setup_for(const Driver& driver, const MeasurementRequest& request) {
    const auto fits = [&](const MeterSetup& setup, Quantity quantity) {
        const bool circuit_fits =
            !request.circuit || !has_circuit(quantity) || setup.circuit == request.circuit;
        return gives(setup, quantity) && circuit_fits && reaches(setup, request.frequency_hz);
    };
    for (const Quantity quantity : {request.quantity, as_meters_call_it(request.quantity)})
        for (const MeterSetup& setup : driver.setups)
            if (fits(setup, quantity)) return &setup;
    return nullptr;
}

std::optional<double> frequency_for(const MeterSetup& setup, const MeasurementRequest& request) {
    if (!setup.lowest_frequency_hz) return std::nullopt;
    constexpr double usual_hz = 1000.0;
    return request.frequency_hz.value_or(
        std::clamp(usual_hz, *setup.lowest_frequency_hz, *setup.highest_frequency_hz));
}

bool is_called(const MeterSetup& setup, std::string_view function_name) {
    while (function_name.starts_with('"'))
        function_name.remove_prefix(1);
    while (function_name.ends_with('"'))
        function_name.remove_suffix(1);
    return std::ranges::any_of(setup.function_names, [&](const std::string& known) {
        return std::ranges::equal(known, function_name, {}, upper, upper);
    });
}

const MeterSetup* setup_called(const Driver& driver, std::string_view function_name) {
    const auto found = std::ranges::find_if(
        driver.setups, [&](const MeterSetup& setup) { return is_called(setup, function_name); });
    return found == driver.setups.end() ? nullptr : &*found;
}

std::vector<std::string> commands_for(const MeterSetup& setup, std::optional<double> frequency_hz) {
    std::vector<std::string> commands;
    for (const std::string& command : setup.commands)
        commands.push_back(with_frequency(command, frequency_hz));
    return commands;
}

std::string instruction_for(const MeterSetup& setup, std::optional<double> frequency_hz) {
    return with_frequency(setup.by_hand, frequency_hz);
}

MeterSetting setting_for(const MeterSetup& setup, std::optional<double> frequency_hz) {
    MeterSetting setting{.quantities = setup.gives,
                         .circuit = setup.circuit,
                         .frequency_hz = {},
                         .range_limit = setup.range_limit};
    if (setup.lowest_frequency_hz) setting.frequency_hz = frequency_hz;
    return setting;
}

Reading as_requested(Reading reading, const MeasurementRequest& request) {
    reading.between = request.between;
    reading.coil = request.coil;
    if (request.quantity == Quantity::insulation_resistance && reading.quantity == Quantity::dc_resistance)
        reading.quantity = Quantity::insulation_resistance;
    return reading;
}

} // namespace coilward
