#include "meter/line_split.h"

namespace coilward {

std::vector<std::string_view> split(std::string_view line, std::string_view separator) {
    std::vector<std::string_view> fields;
    split_into(fields, trimmed(line), separator);
    return fields;
}

} // namespace coilward
