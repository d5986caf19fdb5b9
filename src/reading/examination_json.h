#pragma once

#include "reading/examination.h"

#include <stdexcept>
#include <string>
#include <string_view>

namespace coilward {

/// A readings document that cannot be used. The text says which member, what was found and what was expected.
struct BadDocument : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Reads a readings document (docs/formats.md). Numbers in other units that it allows are brought to SI.
/// Throws BadDocument.
Examination examination_from_json(std::string_view text);

/// One reading in the readings form, on one line, e.g. for a live stream or the history. Numbers keep every
/// digit that is needed to read the same double back. Throws std::invalid_argument for a number that is not
/// finite, which JSON cannot hold.
std::string reading_to_json(const Reading&);

/// One reading from the readings form. Throws BadDocument.
Reading reading_from_json(std::string_view text);

/// The readings document that examination_from_json reads again, on one line. Throws as the above.
std::string examination_to_json(const Examination&);

} // namespace coilward
