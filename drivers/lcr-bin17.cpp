// lcr-bin17: seventeen bytes; the meter sends them unasked over its optical link.
//
//   00 0D  A  B  S  Q  VV VV  U  00  N  WW WW  P  00  0D 0A
//
//   A      bit 7 parallel; 6 automatic range; 5 automatic quantity; 4 sorting
//   B      bits 7-5 frequency: 0 to 4 for 100, 120 Hz, 1, 10, 100 kHz; bit 4 always set; 3 no automatic off
//   S      sorting, else 0
//   Q      1 L, 2 C, 3 R, 4 DC resistance
//   VV VV  counts of the main value, high byte first (assumed)
//   U      bits 6-3 unit, 2-0 decimals
//   N      second value: 0 none, 1 D, 2 Q, 3 ESR, 4 angle
//   WW WW  its counts;  P  its decimals
//
// From a forum post of 2014 by somebody who fed bytes to the maker's own display program; the last two bytes
// from memory. Bytes 9 and 14 have never been seen other than 0 and may say overload: then there is no value.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"
#include "meter/meter_notes.h"

#include <algorithm>
#include <array>

namespace coilward {
namespace {

constexpr std::size_t frame_length = 17;
constexpr std::string_view frame_start{"\x00\x0D", 2};
constexpr std::string_view frame_end{"\x0D\x0A", 2};

constexpr unsigned parallel_bit = 0x80;
constexpr unsigned sorting_bit = 0x10;
constexpr unsigned unexplained_mode_bits = 0x0F;
constexpr unsigned always_set_bit = 0x10;
constexpr unsigned always_clear_bits = 0x07;
constexpr unsigned most_decimals = 4;

constexpr std::array<double, 5> frequencies_hz{100.0, 120.0, 1e3, 10e3, 100e3};

constexpr std::array<Quantity, 4> quantities{Quantity::inductance, Quantity::capacitance,
                                             Quantity::ac_resistance, Quantity::dc_resistance};

struct Unit {
    unsigned code;
    Quantity quantity; ///< ac_resistance: both resistances
    int power;         ///< of ten, to the SI unit
};

constexpr std::array<Unit, 11> units{{
    {1, Quantity::ac_resistance, 0},
    {2, Quantity::ac_resistance, 3},
    {3, Quantity::ac_resistance, 6},
    {5, Quantity::inductance, -6},
    {6, Quantity::inductance, -3},
    {7, Quantity::inductance, 0},
    {8, Quantity::inductance, 3},
    {9, Quantity::capacitance, -12},
    {10, Quantity::capacitance, -9},
    {11, Quantity::capacitance, -6},
    {12, Quantity::capacitance, -3},
}};

long long counts_at(std::string_view frame, std::size_t place) {
    return 256LL * byte_at(frame, place) + byte_at(frame, place + 1);
}

/// The power of ten of the unit in the frame; nothing where it is none of this quantity.
std::optional<int> power_of(unsigned code, Quantity quantity) {
    if (quantity == Quantity::dc_resistance) quantity = Quantity::ac_resistance;
    const auto unit = std::ranges::find(units, code, &Unit::code);
    if (unit == units.end() || unit->quantity != quantity) return std::nullopt;
    return unit->power;
}

/// True where something stands that no document explains.
bool has_unexplained_bits(std::string_view frame) {
    return (byte_at(frame, 2) & unexplained_mode_bits) != 0 || frame[9] != 0 || frame[14] != 0 ||
           byte_at(frame, 10) > 4;
}

/// Adds the second value, if it is one of those whose unit and sign are known.
void add_second_value(Frame& into, std::string_view frame, const MeterSetting& as_sent) {
    const auto decimals = static_cast<int>(byte_at(frame, 13));
    const auto add = [&](Quantity quantity) {
        add_number(into, quantity, counts_at(frame, 11), -decimals, as_sent);
    };
    if (byte_at(frame, 10) == 1) add(Quantity::dissipation_factor);
    if (byte_at(frame, 10) == 2) add(Quantity::quality_factor);
}

/// Nothing where the bytes between the ends are none of this protocol.
std::optional<std::size_t> judged(std::string_view frame, Frame& into) {
    const unsigned mode = byte_at(frame, 2);
    const unsigned signal = byte_at(frame, 3);
    const std::size_t quantity_number = byte_at(frame, 5);
    if ((signal & always_set_bit) == 0 || (signal & always_clear_bits) != 0 || quantity_number < 1 ||
        quantity_number > quantities.size())
        return std::nullopt;
    const Quantity quantity = quantities[quantity_number - 1];
    const auto power = power_of((byte_at(frame, 8) >> 3U) & 0x0FU, quantity);
    const unsigned decimals = byte_at(frame, 8) & 0x07U;
    const unsigned frequency = signal >> 5U;
    if (!power || decimals > most_decimals || byte_at(frame, 13) > most_decimals ||
        (frequency >= frequencies_hz.size() && needs_frequency(quantity)))
        return std::nullopt;
    if (has_unexplained_bits(frame))
        return piece(into, frame_length, Verdict::senseless,
                     "the frame has bits that no document explains; they may say overload");
    if ((mode & sorting_bit) != 0 || frame[4] != 0)
        return piece(into, frame_length, Verdict::not_live, "the meter is sorting");
    MeterSetting as_sent;
    as_sent.circuit = (mode & parallel_bit) != 0 ? Circuit::parallel : Circuit::series;
    if (needs_frequency(quantity)) as_sent.frequency_hz = frequencies_hz[frequency];
    add_number(into, quantity, counts_at(frame, 6), *power - static_cast<int>(decimals), as_sent);
    if (needs_frequency(quantity)) add_second_value(into, frame, as_sent);
    return piece(into, frame_length, Verdict::reading);
}

} // namespace

/// A frame says itself how the meter is set.
std::size_t scan_lcr_bin17(std::string_view buffer, const MeterSetting&, Frame& into) {
    if (buffer.empty()) return 0;
    const std::size_t start = std::min(buffer.find(frame_start.front()), buffer.size());
    if (start > 0) return piece(into, start, Verdict::no_start);
    if (buffer.size() > 1 && buffer[1] != frame_start[1]) return piece(into, 1, Verdict::no_start);
    if (buffer.size() < frame_length) return 0;
    const std::string_view frame = buffer.substr(0, frame_length);
    if (frame.ends_with(frame_end))
        if (const auto whole = judged(frame, into)) return *whole;
    return passed_over(into, buffer, frame_length, frame_start.front());
}

namespace {

const Unit& lowest_unit(Quantity quantity) {
    return *std::ranges::find_if(units,
                                 [&](const Unit& unit) { return power_of(unit.code, quantity).has_value(); });
}

struct MainValue {
    unsigned counts;
    unsigned unit_and_decimals;
};

/// Nothing where no unit can show it.
std::optional<MainValue> main_value(std::optional<double> value, Quantity quantity) {
    constexpr long long most_counts = 19'999;
    if (!value || *value < 0.0) return std::nullopt;
    for (const Unit& unit : units) {
        if (power_of(unit.code, quantity) != unit.power) continue;
        if (const auto shown =
                shown_number(value, unit.power - static_cast<int>(most_decimals), unit.power, most_counts))
            return MainValue{static_cast<unsigned>(shown->counts),
                             unit.code << 3U | static_cast<unsigned>(unit.power - shown->power)};
    }
    return std::nullopt;
}

} // namespace

/// How it shows overload is not known; with byte 9 set there is no reading.
std::string show_lcr_bin17(ShownValues values, const MeterSetting& setting) {
    const Quantity quantity = quantity_at(setting, 0);
    const auto main = main_value(values[0], quantity);
    const auto frequency =
        std::ranges::find(frequencies_hz, setting.frequency_hz.value_or(frequencies_hz[0]));
    const auto code = static_cast<unsigned>(frequency - frequencies_hz.begin());
    const auto number =
        static_cast<unsigned>(std::ranges::find(quantities, quantity) - quantities.begin()) + 1;
    const auto second = values.size() > 1 && values[1] && *values[1] >= 0.0
                            ? shown_number(values[1], -static_cast<int>(most_decimals), 0, 9999)
                            : std::nullopt;
    std::string frame(frame_start);
    frame += byte_of(setting.circuit == Circuit::parallel ? parallel_bit : 0);
    frame += byte_of(code << 5U | always_set_bit);
    frame += byte_of(0);
    frame += byte_of(number);
    frame += in_two_bytes(main ? main->counts : 0);
    frame += byte_of(main ? main->unit_and_decimals : lowest_unit(quantity).code << 3U);
    frame += byte_of(main ? 0 : 1);
    frame += byte_of(!second ? 0 : quantity_at(setting, 1) == Quantity::quality_factor ? 2 : 1);
    frame += in_two_bytes(second ? second->counts : 0);
    frame += byte_of(second ? static_cast<unsigned>(-second->power) : 0);
    frame += byte_of(0);
    return frame + std::string(frame_end);
}

} // namespace coilward
