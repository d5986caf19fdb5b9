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
    std::string place;

    /// Whether it is there, and not null.
    bool present() const { return value != nullptr; }
};

/// A member of an object. JSON's null counts as absent.
Placed member(const Placed& object, std::string_view key);

/// Of an array, from 0. Throws where there are fewer.
Placed element(const Placed& array, std::size_t index);

/// Throws BadDocument: "PLACE: found FOUND, expected EXPECTED" or "PLACE: missing, expected EXPECTED".
[[noreturn]] void complain(const Placed&, std::string_view expected);

/// Checks of the kind of a value that complain where it is another.
const nlohmann::json& object_at(const Placed&, std::string_view expected = "an object");
const nlohmann::json& array_at(const Placed&, std::string_view expected = "an array");
std::string text_at(const Placed&, std::string_view expected);
double number_at(const Placed&, std::string_view expected);

/// A string as JSON writes it, on one line and no longer than a line of a message.
std::string in_quotes(std::string_view text);

} // namespace coilward
