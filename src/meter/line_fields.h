#pragma once

#include "meter/frame.h"
#include "meter/line_protocol.h"
#include "meter/line_split.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <boost/container/small_vector.hpp>

namespace coilward {

/// The number in one value field, with the name and unit that the line gave it; or what stood there instead.
struct FieldValue {
    /// Of the value at that place, still without a number.
    explicit FieldValue(std::size_t index_of_value) : index(index_of_value) {}

    std::size_t index;                    ///< place among the setting's quantities, from 0
    std::optional<Quantity> quantity;     ///< absent: the setting's
    std::optional<Circuit> circuit;       ///< absent: the setting's
    Meaning meaning = Meaning::ok;        ///< of the number, or of what stood there
    bool negative = false;                ///< a minus stood there
    double value = 0.0;                   ///< SI; only with Meaning::ok
    double resolution = 0.0;              ///< SI; only with Meaning::ok
    const NamedValue* not_ours = nullptr; ///< what this bench does not measure; lives in the protocol
    std::string_view
        ambiguous; ///< a unit that stands for several where the setting does not tell; lives in the line
};

/// A line that fits a layout.
struct LineFields {
    boost::container::small_vector<FieldValue, 3> values; ///< in the order of the line
    std::optional<int> status;                            ///< absent: the layout has none
    const StandIn* state = nullptr;                       ///< lives in the protocol
    int unusual_digits = 0;      ///< of a number in none of the forms of the protocol; 0: there is none
    bool beyond_measure = false; ///< some magnitude is larger than LineProtocol::largest and no sentinel
};

/// The fields as they were made, with room that is kept.
inline void clear(LineFields& fields) {
    fields.values.clear();
    fields.status.reset();
    fields.state = nullptr;
    fields.unusual_digits = 0;
    fields.beyond_measure = false;
}

/// Room for what is known of a line while it is read, kept from one line to the next.
struct LineRoom {
    std::vector<std::string_view> texts; ///< the line's fields
    LineFields fields;                   ///< what they say
};

/// Reads the texts of a line's fields by the layout into empty `fields`; false where they are not those of
/// the layout.
bool fits_layout(std::span<const std::string_view> texts, std::span<const LineField> layout,
                 const LineProtocol&, const MeterSetting&, LineFields& fields);

/// Why the number is no reading of this bench, for the person; empty where it is one.
std::string objection_to(const FieldValue&);

/// The least number of fields that the layout takes.
std::size_t fewest_fields(const LineLayout&);

} // namespace coilward
