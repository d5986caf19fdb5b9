// dmm-lcd14: fourteen bytes that say which elements of the display are lit; the meter sends them unasked.
//
//   1s  2h 3l  4h 5l  6h 7l  8h 9l  A? B? C? D? E?
//
//   The upper half of each byte is its number. Lower halves:
//   s     bit 3 AC, 2 DC, 1 AUTO, 0 RS232
//   h l   one digit: h bits 2-0 and l bits 3-0 are its segments e f a, d c g b; bit 3 of h is the minus
//   before
//         the first digit, the point before the others
//   ?     prefix, unit, hold, relative, battery: which is which was seen in no document
//
// Voltcraft VC820/840/860 protocol sheet, rev. 1.0, p. 2-3, and a tutorial that quotes it; the segments are
// from memory and fit the sheet's own example, which reads 210.6. Since the unit is not known, a value is
// read only as the setting says it, and only while the meter cannot change its range by itself.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"

#include <algorithm>
#include <array>

namespace coilward {
namespace {

constexpr std::size_t frame_length = 14;
constexpr unsigned auto_bit = 0x02;
constexpr unsigned dc_bit = 0x04;
constexpr unsigned ac_bit = 0x08;
constexpr unsigned rs232_bit = 0x01;
constexpr unsigned mark_bit = 0x80; ///< of a digit: minus or point
constexpr char blank = ' ';

struct Glyph {
    unsigned segments;
    char character;
};

constexpr std::array<Glyph, 12> glyphs{{{0x7D, '0'},
                                        {0x05, '1'},
                                        {0x5B, '2'},
                                        {0x1F, '3'},
                                        {0x27, '4'},
                                        {0x3E, '5'},
                                        {0x7E, '6'},
                                        {0x15, '7'},
                                        {0x7F, '8'},
                                        {0x3F, '9'},
                                        {0x68, 'L'},
                                        {0x00, blank}}};

unsigned low_half(char byte) {
    return static_cast<unsigned char>(byte) & 0x0FU;
}

std::size_t number_of(char byte) {
    return static_cast<unsigned char>(byte) >> 4U;
}

struct Display {
    std::array<char, 4> characters{};
    bool minus = false;
    int points = 0;
    int decimals = 0;
};

/// What the digits show; nothing where a digit is none that is known.
std::optional<Display> display_of(std::string_view frame) {
    Display display;
    for (std::size_t i = 0; i < display.characters.size(); ++i) {
        const unsigned pair = low_half(frame[1 + 2 * i]) << 4U | low_half(frame[2 + 2 * i]);
        const auto glyph = std::ranges::find(glyphs, pair & ~mark_bit, &Glyph::segments);
        if (glyph == glyphs.end()) return std::nullopt;
        display.characters[i] = glyph->character;
        if ((pair & mark_bit) == 0) continue;
        if (i == 0) {
            display.minus = true;
        } else {
            ++display.points;
            display.decimals = static_cast<int>(display.characters.size() - i);
        }
    }
    return display;
}

/// "0L" with blanks around it.
bool shows_overload(const Display& display) {
    const auto is_other = [](char character) {
        return character != blank && character != '0' && character != 'L';
    };
    return std::ranges::count(display.characters, 'L') == 1 &&
           std::ranges::none_of(display.characters, is_other);
}

/// The number without its point; blanks may stand before it.
std::optional<long long> counts_of(const Display& display) {
    const auto first = std::ranges::find_if_not(display.characters, [](char each) { return each == blank; });
    const auto number = plain_number({first, display.characters.end()});
    if (!number) return std::nullopt;
    return display.minus ? -number->counts : number->counts;
}

/// The unit that the driver file tells the person to fix: its power of ten.
std::optional<int> power_of(Quantity quantity) {
    if (quantity == Quantity::dc_resistance) return 3;
    if (quantity == Quantity::dc_voltage) return -3;
    return std::nullopt;
}

/// What the meter is on, against the setting; empty where they agree.
std::string_view wrong_function(unsigned elements, Quantity quantity) {
    if ((elements & ac_bit) != 0) return "the meter is on AC";
    const bool is_dc = (elements & dc_bit) != 0;
    if (is_dc && quantity != Quantity::dc_voltage) return "the meter is on DC volts or amperes";
    if (!is_dc && quantity == Quantity::dc_voltage) return "the meter is not on DC volts";
    return {};
}

/// A display of the quantity that the meter was set to.
std::size_t value_of(const Display& display, bool changes_range, Quantity quantity, int power,
                     const MeterSetting& setting, Frame& into) {
    if (shows_overload(display)) {
        const bool below = display.minus && quantity == Quantity::dc_voltage;
        add_out_of_range(into, quantity, below ? State::under_range : State::over_range, setting);
        return piece(into, frame_length, Verdict::reading);
    }
    if (changes_range)
        return piece(
            into, frame_length, Verdict::senseless,
            "with AUTO on its display the meter may change its unit, and no document tells where its "
            "bytes say so: press RANGE");
    const auto counts = counts_of(display);
    if (!counts) return piece(into, frame_length, Verdict::bad_structure);
    add_number(into, quantity, *counts, power - display.decimals, setting);
    return piece(into, frame_length, Verdict::reading);
}

std::size_t judged(std::string_view frame, const MeterSetting& setting, Frame& into) {
    const unsigned elements = low_half(frame[0]);
    const auto display = display_of(frame);
    if ((elements & rs232_bit) == 0 || !display || display->points > 1)
        return piece(into, frame_length, Verdict::bad_structure);
    const Quantity quantity = setting.quantities.empty() ? Quantity::dc_resistance : setting.quantities[0];
    const auto power = power_of(quantity);
    if (!power) return piece(into, frame_length, Verdict::senseless, "not a quantity of this bench");
    if (const auto reason = wrong_function(elements, quantity); !reason.empty())
        return piece(into, frame_length, Verdict::senseless, reason);
    return value_of(*display, (elements & auto_bit) != 0, quantity, *power, setting, into);
}

} // namespace

std::size_t scan_dmm_lcd14(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    if (buffer.empty()) return 0;
    const auto is_first = [](char byte) { return number_of(byte) == 1; };
    const auto start = std::ranges::find_if(buffer, is_first);
    if (start != buffer.begin())
        return piece(into, static_cast<std::size_t>(start - buffer.begin()), Verdict::no_start);
    for (std::size_t i = 1; i < std::min(buffer.size(), frame_length); ++i)
        if (number_of(buffer[i]) != i + 1)
            return piece(into, i, is_first(buffer[i]) ? Verdict::too_short : Verdict::bad_structure);
    if (buffer.size() < frame_length) return 0;
    return judged(buffer.substr(0, frame_length), setting, into);
}

namespace {

/// The lower halves of two bytes, as one digit has them.
unsigned pair_showing(char character, bool mark) {
    const auto glyph = std::ranges::find(glyphs, character, &Glyph::character);
    return glyph->segments | (mark ? mark_bit : 0);
}

} // namespace

/// In the unit that the person fixes the display to; the last five bytes are not known and stay dark.
std::string show_dmm_lcd14(ShownValues values, const MeterSetting& setting) {
    constexpr long long most_counts = 3999;
    const Quantity quantity = quantity_at(setting, 0);
    const int power = power_of(quantity).value();
    const auto shown = shown_number(values[0], power - 3, power, most_counts);
    const std::string characters = shown ? in_digits(shown->counts, 4) : " 0L ";
    const int decimals = shown ? power - shown->power : 0;
    std::array<unsigned, frame_length> halves{rs232_bit | (quantity == Quantity::dc_voltage ? dc_bit : 0)};
    for (std::size_t i = 0; i < characters.size(); ++i) {
        const bool point = decimals > 0 && i + static_cast<std::size_t>(decimals) == characters.size();
        const bool minus = i == 0 && shown && shown->counts < 0;
        const unsigned pair = pair_showing(characters[i], point || minus);
        halves[1 + 2 * i] = pair >> 4U;
        halves[2 + 2 * i] = pair & 0x0FU;
    }
    std::string frame;
    for (std::size_t i = 0; i < halves.size(); ++i)
        frame += byte_of(static_cast<unsigned>(i + 1) << 4U | halves[i]);
    return frame;
}

} // namespace coilward
