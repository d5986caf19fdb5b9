#include "reading/examination_json.h"
#include "reading/reading_json.h"

#include <limits>
#include <numbers>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace coilward {
namespace {

using nlohmann::json;

/// A word of a fixed vocabulary.
template <typename Kind>
Kind word_at(const Placed& at, std::optional<Kind> (*named)(std::string_view)) {
    const auto kind =
        at.present() && at.value->is_string() ? named(at.value->get_ref<const std::string&>()) : std::nullopt;
    if (!kind) complain(at, fmt::format("one of {}", fmt::join(all_names<Kind>(), ", ")));
    return *kind;
}

template <typename Kind>
std::optional<Kind> optional_word_at(const Placed& at, std::optional<Kind> (*named)(std::string_view)) {
    if (!at.present()) return std::nullopt;
    return word_at(at, named);
}

/// What a number in the document is multiplied by to be in the SI unit of its quantity.
double factor_of_unit(const Placed& at, Quantity quantity) {
    if (!at.present()) return 1.0;
    const auto expected = unit(quantity);
    const auto found = at.value->is_string() ? at.value->get<std::string>() : std::string();
    if (at.value->is_string() && found == expected) return 1.0;
    switch (quantity) {
    case Quantity::phase_angle:
        if (found == "deg") return std::numbers::pi / 180.0;
        complain(at, R"("rad" or "deg"; convert the value)");
    case Quantity::polarity:
    case Quantity::magnet_pole:
        if (found == "1") return 1.0;
        complain(at, "no unit; leave the unit of a polarity out");
    default:
        complain(at, fmt::format(R"("{}"; convert the value)", expected));
    }
}

/// The lowest value that the quantity can have, or that a meter can show of it, and whether it may be
/// reached.
struct Lowest {
    double value = -std::numeric_limits<double>::infinity();
    bool included = true;
};

/// Negative is what an LCR meter shows of the inductance of a broken coil, or of a resistance near a
/// resonance. Of a DC resistance it is the zero offset of meter and leads, which is a few ohm at most.
Lowest lowest(Quantity quantity) {
    switch (quantity) {
    case Quantity::temperature:
        return {.value = -273.15};
    case Quantity::dc_resistance:
        return {.value = -10.0};
    case Quantity::impedance_magnitude:
        return {.value = 0.0};
    case Quantity::resonance_frequency:
        return {.value = 0.0, .included = false};
    default:
        return {};
    }
}

std::string number_in(Quantity quantity) {
    const auto symbol = unit(quantity);
    return symbol == "1" ? "a number" : fmt::format("a number in {}", symbol);
}

double value_at(const Placed& at, Quantity quantity) {
    const double value = number_at(at, at.present() ? number_in(quantity)
                                                    : number_in(quantity) + ", or a state other than ok");
    const auto [bound, included] = lowest(quantity);
    if (value < bound || (value == bound && !included))
        complain(at, fmt::format("{} {} {}", number_in(quantity), included ? "not below" : "above", bound));
    return value;
}

std::optional<double> positive_at(const Placed& at, std::string_view expected) {
    if (!at.present()) return std::nullopt;
    const double number = number_at(at, expected);
    if (!(number > 0.0)) complain(at, expected);
    return number;
}

std::optional<double> frequency_at(const Placed& at, Quantity quantity) {
    if (needs_frequency(quantity)) {
        if (!at.present())
            complain(at, fmt::format("the frequency in Hz at which the {} was measured", name(quantity)));
        return positive_at(at, "a number above 0, in Hz");
    }
    // Direct current is 0 Hz.
    if (at.present() && at.value->is_number() && at.value->get<double>() == 0.0) return std::nullopt;
    return positive_at(at, "a number above 0, in Hz");
}

std::string coil_at(const Placed& at, Quantity quantity, const CoilNames& coils) {
    if (coils.empty()) return at.present() ? text_at(at, "the name of a coil") : std::string();
    if (!at.present() && quantity == Quantity::temperature) return {};
    std::vector<std::string> names;
    for (const auto& [coil, model] : coils)
        names.push_back(in_quotes(coil));
    const auto expected = fmt::format(R"(one of {}, "whole")", fmt::join(names, ", "));
    auto coil = text_at(at, expected);
    if (coil != "whole" && !coils.contains(coil)) complain(at, expected);
    return coil;
}

/// The numbers of a reading, in SI units.
void read_numbers(const Placed& at, Reading& reading) {
    const double factor = factor_of_unit(member(at, "unit"), reading.quantity);
    const auto scaled = [factor](std::optional<double> number) {
        return number ? std::optional(*number * factor) : std::nullopt;
    };
    const auto value = member(at, "value");
    if (value.present() || reading.state == State::ok)
        reading.value = scaled(value_at(value, reading.quantity));

    const auto uncertainty = member(at, "standard_uncertainty");
    constexpr auto expected_uncertainty = "a number above 0; leave it out where it is not known";
    reading.standard_uncertainty = scaled(positive_at(uncertainty, expected_uncertainty));
    if (reading.standard_uncertainty == 0.0) complain(uncertainty, expected_uncertainty); // too small in SI
    if (const auto limit = member(at, "limit"); limit.present())
        reading.limit = scaled(number_at(limit, number_in(reading.quantity)));
    if (const auto spread = member(at, "spread"); spread.present()) {
        const double half_width = number_at(spread, number_in(reading.quantity));
        if (half_width < 0.0) complain(spread, number_in(reading.quantity) + " not below 0");
        reading.spread = scaled(half_width);
    }
}

} // namespace

Reading reading_at(const Placed& at, const CoilNames& coils) {
    object_at(at, "an object with a quantity and a value");
    Reading reading;
    reading.quantity = word_at(member(at, "quantity"), quantity_named);
    reading.between = optional_word_at(member(at, "between"), between_named).value_or(Between::leads);
    reading.circuit = optional_word_at(member(at, "circuit"), circuit_named);
    reading.state = optional_word_at(member(at, "state"), state_named).value_or(State::ok);
    reading.frequency_hz = frequency_at(member(at, "frequency"), reading.quantity);
    reading.coil = coil_at(member(at, "coil"), reading.quantity, coils);
    reading.handling = optional_word_at(member(at, "handling"), handling_named);
    if (is_polarity(reading.quantity)) {
        factor_of_unit(member(at, "unit"), reading.quantity);
        reading.polarity = word_at(member(at, "value"), polarity_named);
    } else {
        read_numbers(at, reading);
    }
    return reading;
}

Reading reading_from_json(std::string_view text) {
    const auto document = parse_json(text);
    return reading_at({&document, ""}, {});
}

} // namespace coilward
