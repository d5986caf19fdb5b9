// dmm-ascii14: fourteen characters, sent for each letter D.
//
//   FF  NNNNNNN  UUUU  0D
//
//   FF       function: DC, AC; blank for ohms
//   NNNNNNN  number with point and minus, filled up with blanks
//   UUUU     unit, filled up with blanks
//
// From a mailing-list post that quotes the meter's document with two lines; the blanks, which the archive had
// lost, are rebuilt so that both fit. OL in the place of the number is from memory.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"
#include "meter/meter_notes.h"

#include <algorithm>
#include <array>

namespace coilward {
namespace {

constexpr EndedFrame shape{.body = 13, .end = "\r"};

struct Unit {
    std::string_view text;
    Quantity quantity;
    int power; ///< of ten, to the SI unit
};

constexpr std::array<Unit, 7> units{{
    {"mV", Quantity::dc_voltage, -3},
    {"V", Quantity::dc_voltage, 0},
    {"ohm", Quantity::dc_resistance, 0},
    {"Kohm", Quantity::dc_resistance, 3},
    {"Mohm", Quantity::dc_resistance, 6},
    {"nF", Quantity::capacitance, -9},
    {"uF", Quantity::capacitance, -6},
}};

std::size_t judged(std::string_view body, const MeterSetting& setting, Frame& into) {
    const std::string_view function = without_blanks(body.substr(0, 2));
    const std::string_view field = body.substr(2, 7); // filled up in front
    const std::string_view text = field.back() == ' ' ? std::string_view() : without_blanks(field);
    const auto unit = std::ranges::find(units, without_blanks(body.substr(9, 4)), &Unit::text);
    if (unit == units.end())
        return piece(into, shape.length(), Verdict::senseless, "not a quantity of this bench");
    const bool is_voltage = unit->quantity == Quantity::dc_voltage;
    if (is_voltage && function == "AC") return other_function(into, shape.length(), "volts AC");
    if (function != (is_voltage ? "DC" : "")) return piece(into, shape.length(), Verdict::bad_structure);
    if (text == "OL" || text == "-OL") {
        const bool below = is_voltage && text.starts_with('-');
        add_out_of_range(into, unit->quantity, below ? State::under_range : State::over_range, setting);
        return piece(into, shape.length(), Verdict::reading);
    }
    const auto number = plain_number(text, true);
    if (!number) return piece(into, shape.length(), Verdict::bad_structure);
    add_number(into, unit->quantity, number->counts, unit->power - number->decimals, setting);
    return piece(into, shape.length(), Verdict::reading);
}

} // namespace

std::size_t scan_dmm_ascii14(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    if (const auto no_frame = rejected(buffer, shape, into)) return *no_frame;
    return judged(buffer.substr(0, shape.body), setting, into);
}

std::string show_dmm_ascii14(ShownValues values, const MeterSetting& setting) {
    constexpr long long most_counts = 19'999;
    const Quantity quantity = quantity_at(setting, 0);
    const std::string function = quantity == Quantity::dc_voltage ? "DC" : "  ";
    std::string_view unit_text;
    for (const Unit& unit : units) {
        if (unit.quantity != quantity) continue;
        unit_text = unit.text;
        if (const auto shown = shown_number(values[0], unit.power - 4, unit.power - 1, most_counts))
            return function + blanks_before(with_point(shown->counts, unit.power - shown->power), 7) +
                   blanks_before(unit_text, 4) + std::string(shape.end);
    }
    return function + blanks_before("OL", 7) + blanks_before(unit_text, 4) + std::string(shape.end);
}

} // namespace coilward
