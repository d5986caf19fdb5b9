#pragma once

#include "history/history.h"

#include <string>

namespace coilward {

/// The whole history as one JSON document: {"histories": [{"pickup": …, "visits": […]}, …]}, each as
/// `coilward history PICKUP --json` has it, with the pickup's former values (docs/history.md). Throws
/// HistoryError.
std::string everything_to_json(const History&);

/// All readings as CSV (RFC 4180): a header line, one record a reading, CRLF between records. Throws
/// HistoryError.
std::string readings_to_csv(const History&);

/// A field of CSV: in quotes where it has a comma, a quote or a line break, its quotes doubled.
std::string csv_field(const std::string& text);

} // namespace coilward
