#pragma once

#include "meter/driver.h"
#include "meter/line_protocol.h"
#include "toml/table_reader.h"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

/// The words that a driver file may use, and what they stand for.
namespace coilward {

/// The quantity under `key`, by its name in the readings document; a complaint where it is another word, or a
/// polarity, which no meter sends.
std::optional<Quantity> read_quantity(TableReader&, std::string_view key, Need);

/// A list of them, at least one; likewise.
std::vector<Quantity> read_quantities(TableReader&, std::string_view key);

/// "series" or "parallel"; a complaint where it is another word.
std::optional<Circuit> read_circuit(TableReader&, std::string_view key);

/// What a status or a word says; a complaint where it is another word.
std::optional<Meaning> read_meaning(TableReader&, std::string_view key);

/// "CR", "LF", "CR LF", "LF CR" or "none" as the characters themselves.
std::optional<std::string> read_line_end(TableReader&, std::string_view key);

} // namespace coilward
