#pragma once

#include "meter/known_texts.h"
#include "meter/number_forms.h"
#include "reading/quantity.h"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace coilward {

/// One place in a line of text.
struct LineField {
    /// What stands there.
    enum class Kind {
        value,   ///< a number; `index` says which of the setting's quantities
        values,  ///< one or more numbers, all of the first quantity
        status,  ///< an integer, looked up in LineProtocol::status
        state,   ///< a text, looked up in LineProtocol::states: a status in letters
        key,     ///< the name of the next number, in a field of its own
        unit,    ///< the unit of the number before, in a field of its own
        bin,     ///< a comparator's verdict: checked for form, not used
        integer, ///< any integer: checked for form, not used
        tagged,  ///< a number with `tag` behind it: checked for form, not used
        text,    ///< anything: not used
    };
    Kind kind = Kind::text;
    std::size_t index = 0; ///< of a value: from 0
    std::string tag;       ///< of a tagged number
    bool optional = false; ///< may be absent; only at the end of a layout
};

/// The fields of a line, in order.
using LineLayout = std::vector<LineField>;

/// What a status code, a special number or a word means. `no_data`: there is no measurement yet; `fault`: the
/// meter reports one, and the numbers beside it mean nothing.
enum class Meaning { ok, over_range, under_range, no_data, fault };

/// A code and what it says about the numbers beside it.
struct StatusCode {
    int code = 0; ///< as the line has it
    Meaning meaning = Meaning::ok;
    std::string note; ///< for the person, where the number is real but something is wrong; may be empty
};

/// A number that stands for something else, as 9.9E37 for "overload".
struct Sentinel {
    double magnitude = 0.0; ///< of the number as it is written, without its sign
    Meaning meaning = Meaning::over_range;
};

/// A text in place of a number or of a whole line, as "OVLOAD". With a `*` at its end: whatever begins so.
struct StandIn {
    std::string text; ///< the whole of it, or with `*` its beginning
    Meaning meaning = Meaning::over_range;
    std::string note; ///< for the person; may be empty
};

/// What it is looked up by.
inline std::string_view text_of(const StandIn& word) {
    return word.text;
}

/// In the order of the file.
using StandIns = KnownTexts<StandIn>;

/// Unit text after a number, or a name before it.
struct NamedValue {
    std::optional<Quantity> quantity; ///< absent: the setting's
    std::optional<Circuit> circuit;   ///< absent: the setting's
    int power = 0;                    ///< SI value = scale · (number · 10^power + offset)
    double offset = 0.0;              ///< before the scale
    double scale = 1.0;
    int digits = 0;       ///< that the number with it has, its exponent left out; 0: any
    std::string not_ours; ///< what the meter then measures, as "volts AC", which this bench does not use
};

/// A text may occur more than once: see unit_named().
using NamedValues = KnownTexts<std::pair<std::string, NamedValue>>;

/// What numbers look like, beyond the response grammar of IEEE 488.2.
struct NumberForm {
    std::uint64_t required = 0;  ///< marks of NumberLook that every number has
    std::uint64_t forbidden = 0; ///< those that no number has
    bool comma_decimal = false;  ///< a comma does as a point
    /// As the meter's document prints its numbers, as "SD.DDDDDESDD" (number_forms.h); one that writes
    /// otherwise is believed as long as it always does (decoder.h).
    std::vector<WrittenForm> forms;
};

/// A protocol of text lines, as drivers/ID.toml describes it ([line], see docs/drivers.md). Lines end with
/// any mix of CR and LF; blanks around fields do not count.
struct LineProtocol {
    std::size_t longest = 80;        ///< bytes without the terminator
    std::string separator = ",";     ///< one blank stands for any number of them
    std::vector<LineLayout> layouts; ///< tried in order
    NumberForm numbers;              ///< of every number but a sentinel
    double largest = 1e15;           ///< a magnitude from here on that is no sentinel is senseless
    std::vector<Sentinel> sentinels; ///< looked at before `largest`
    std::vector<StatusCode> status;  ///< a code that is not among them is a fault
    NamedValues units;               ///< by the text after the number; empty: no text allowed
    NamedValues keys;                ///< by the name before the number; empty: no name allowed
    std::string key_joiner;          ///< between name and number: "=", " " or ":"
    StandIns states;                 ///< what a field of its own says about the numbers, as "NORMAL"
    StandIns words;                  ///< lines or fields that stand in for a reading, as "OVLOAD"
    KnownTexts<std::string> asides;  ///< whole lines without a measurement, as "OK" or "=>"; `*` as above
};

} // namespace coilward
