#pragma once

#include "history/history.h"

#include <string>

namespace coilward {

/// The whole history as one JSON document: {"histories": [{"pickup": …, "visits": […]}, …]}, each as
/// whole_pickup_to_json has it, the oldest pickup first (docs/history.md). Two histories that hold the same
/// export the same bytes. Throws HistoryError.
std::string everything_to_json(const History&);

/// All readings as CSV (RFC 4180): a header line, one record a reading, CRLF between records. Throws
/// HistoryError.
std::string readings_to_csv(const History&);

} // namespace coilward
