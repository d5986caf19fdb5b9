#pragma once

#include "history/history.h"

#include <string>

namespace coilward {

/// {"unfinished": [...]}, the latest first, on one line: of the latest visits those that are their pickup's
/// last one and have readings of a coil, but no verdict on it that is decided. They can be gone on with, also
/// after the program was ended or killed. Throws HistoryError.
std::string unfinished_to_json(const History&);

} // namespace coilward
