#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

namespace coilward {

/// The document without line breaks. Bytes that are no UTF-8, as a terminal in another encoding may have
/// typed them, become U+FFFD.
std::string on_one_line(const nlohmann::json&);

/// The same, with the members in the order in which they were put in.
std::string on_one_line(const nlohmann::ordered_json&);

} // namespace coilward
