#pragma once

#include "meter/frame.h"
#include "meter/line_protocol.h"

#include <string_view>

/// Look-ups of the texts that a line protocol knows. Each gives no pointer where the text is not known.
namespace coilward {

/// The texts of a protocol are short: faster than a comparison by the library.
inline bool is_same(std::string_view text, std::string_view known) {
    if (text.size() != known.size()) return false;
    for (std::size_t i = 0; i < text.size(); ++i)
        if (text[i] != known[i]) return false;
    return true;
}

/// True where the text is the pattern, or begins with it where the pattern ends with `*`.
inline bool is_like(std::string_view text, std::string_view pattern) {
    if (text.empty() || pattern.empty() || text.front() != pattern.front()) // nearly always
        return text.empty() && pattern.empty();
    if (pattern.size() > 1 && pattern.back() == '*')
        return text.starts_with(pattern.substr(0, pattern.size() - 1));
    return text == pattern;
}

/// Among LineProtocol::words or LineProtocol::states.
inline const StandIn* stand_in_named(std::string_view text, const StandIns& known) {
    for (const StandIn& word : known.like(text))
        if (is_like(text, word.text)) return &word;
    return nullptr;
}

/// What a name before a value stands for, or nullptr.
const NamedValue* key_named(std::string_view text, const LineProtocol&);

/// A unit that stands behind a number.
struct UnitFound {
    const NamedValue* unit = nullptr; ///< nullptr where the protocol has no such unit
    bool is_ambiguous = false; ///< the text stands for several units and the meter is set to none of them
};

/// Where a text stands for several units, as F for farad and Fahrenheit, the one whose quantity the meter is
/// set to; the first where it is set to none of them.
UnitFound unit_named(std::string_view text, const LineProtocol&, const MeterSetting&);

} // namespace coilward
