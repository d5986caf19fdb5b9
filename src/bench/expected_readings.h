#pragma once

#include "reading/reading.h"

#include <filesystem>
#include <string>
#include <vector>

namespace coilward {

/// The file beside a capture that says which readings it must give: NAME.expected.jsonl.
std::filesystem::path expected_file_of(std::filesystem::path capture);

/// One line of such a file: the readings form, and "not stated" for the frequency of a multimeter's
/// capacitance. Throws BadDocument.
Reading expected_reading(std::string line);

/// All lines, in order. Throws BadDocument with file and line.
std::vector<Reading> read_expected(const std::filesystem::path& file);

/// The same reading: states and words exactly, numbers to the last bits of their decimal conversion. What the
/// meter's accuracy adds is no part of the bytes.
bool same_reading(Reading, Reading);

} // namespace coilward
