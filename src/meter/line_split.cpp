#include "meter/line_split.h"

namespace coilward {

std::vector<std::string_view> split(std::string_view line, std::string_view separator) {
    std::vector<std::string_view> fields;
    FieldsInTurn turn(line, separator);
    for (auto field = turn.next(); field; field = turn.next())
        fields.push_back(*field);
    return fields;
}

} // namespace coilward
