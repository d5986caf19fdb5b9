#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

namespace coilward {

/// Parses JSON more strictly than the standard demands: a member that occurs twice in one object is refused,
/// since one of the two would be lost. Throws BadDocument, with line and column where the text is not JSON.
nlohmann::json parse_json(std::string_view text);

/// A value in a document and the place where it stands, as "readings[3].unit".
struct Placed {
    const nlohmann::json* value = nullptr; ///< null where the member is absent
    std::string place;                     ///< empty for the document itself

    /// Whether it is there, and not null.
    bool present() const { return value != nullptr; }
};

/// A member of an object, which must be present. JSON's null counts as absent.
Placed member(const Placed& object, std::string_view key);

/// Of an array, from 0. Throws nlohmann::json::out_of_range where there are fewer.
Placed element(const Placed& array, std::size_t index);

/// Throws BadDocument: "PLACE: found FOUND, expected EXPECTED" or "PLACE: missing, expected EXPECTED".
[[noreturn]] void complain(const Placed&, std::string_view expected);

/// The object there. This and the next three complain where it is absent or another kind of value.
const nlohmann::json& object_at(const Placed&, std::string_view expected = "an object");

/// The array there, perhaps empty.
const nlohmann::json& array_at(const Placed&, std::string_view expected = "an array");

/// The text there, which must not be empty.
std::string text_at(const Placed&, std::string_view expected);

/// The number there, whole or not.
double number_at(const Placed&, std::string_view expected);

/// A string as JSON writes it, on one line, cut after 60 bytes, without control characters.
std::string in_quotes(std::string_view text);

} // namespace coilward
