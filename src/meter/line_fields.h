#pragma once

#include "meter/line_protocol.h"
#include "meter/numeric_response.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// The number in one value field, with the name and unit that the line gave it; or what stood there instead.
struct FieldValue {
    std::size_t index = 0;
    NamedValue named;
    Meaning meaning = Meaning::ok;
    bool negative = false;
    double value = 0.0;      ///< SI; only with Meaning::ok
    double resolution = 0.0; ///< SI; only with Meaning::ok
};

/// A line that fits a layout.
struct LineFields {
    std::vector<FieldValue> values;
    std::optional<int> status;
    bool beyond_measure = false; ///< some magnitude is larger than LineProtocol::largest and no sentinel
};

/// The text without blanks at its ends.
std::string_view trimmed(std::string_view text);

std::vector<std::string_view> split(std::string_view line, std::string_view separator);

/// Nothing where the fields are not those of the layout.
std::optional<LineFields> fields_by_layout(const std::vector<std::string_view>& fields, const LineLayout&,
                                           const LineProtocol&);

/// The least number of fields that the layout takes.
std::size_t fewest_fields(const LineLayout&);

} // namespace coilward
