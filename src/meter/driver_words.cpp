#include "meter/driver_words.h"

#include "toml/utf8.h"

#include <fmt/format.h>

namespace coilward {
namespace {

/// Every quantity but the polarities, which no meter sends.
constexpr std::array measured_quantities{
    Quantity::temperature,           Quantity::dc_resistance,  Quantity::inductance,
    Quantity::ac_resistance,         Quantity::quality_factor, Quantity::dissipation_factor,
    Quantity::impedance_magnitude,   Quantity::phase_angle,    Quantity::capacitance,
    Quantity::insulation_resistance, Quantity::dc_voltage,     Quantity::resonance_frequency,
};

std::vector<Word<Quantity>> quantity_words() {
    std::vector<Word<Quantity>> words;
    for (const Quantity quantity : measured_quantities)
        words.push_back({name(quantity), quantity});
    return words;
}

} // namespace

std::optional<Quantity> read_quantity(TableReader& table, std::string_view key, Need need) {
    return table.word<Quantity>(key, need, quantity_words());
}

std::vector<Quantity> read_quantities(TableReader& table, std::string_view key) {
    std::vector<Quantity> quantities;
    for (const std::string& word : table.texts(key, Need::required)) {
        const auto quantity = quantity_named(word);
        if (quantity && !is_polarity(*quantity))
            quantities.push_back(*quantity);
        else
            table.complain(
                ComplaintKind::unknown_word, key,
                fmt::format(
                    "found \"{}\", expected quantities as \"inductance\" (docs/drivers.md lists them)",
                    shortened(word)));
    }
    return quantities;
}

std::optional<Circuit> read_circuit(TableReader& table, std::string_view key) {
    static constexpr std::array<Word<Circuit>, 2> words{
        {{"series", Circuit::series}, {"parallel", Circuit::parallel}}};
    return table.word<Circuit>(key, Need::optional, words);
}

std::optional<Meaning> read_meaning(TableReader& table, std::string_view key) {
    static constexpr std::array<Word<Meaning>, 5> words{{{"ok", Meaning::ok},
                                                         {"over_range", Meaning::over_range},
                                                         {"under_range", Meaning::under_range},
                                                         {"no_data", Meaning::no_data},
                                                         {"fault", Meaning::fault}}};
    return table.word<Meaning>(key, Need::required, words);
}

std::optional<std::string> read_line_end(TableReader& table, std::string_view key) {
    static constexpr std::array<Word<std::string_view>, 5> words{
        {{"CR", "\r"}, {"LF", "\n"}, {"CR LF", "\r\n"}, {"LF CR", "\n\r"}, {"none", ""}}};
    const auto end = table.word<std::string_view>(key, Need::optional, words);
    if (!end) return std::nullopt;
    return std::string(*end);
}

std::string_view name(DriverStatus status) {
    switch (status) {
    case DriverStatus::draft:
        return "draft";
    case DriverStatus::checked:
        return "checked";
    case DriverStatus::proven:
        return "proven";
    }
    return "";
}

} // namespace coilward
