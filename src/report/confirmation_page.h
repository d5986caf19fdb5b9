#pragma once

#include "rewind/confirmation.h"

#include <string>

namespace coilward {

/// What the record is made out by and for; any may be empty.
struct RecordPeople {
    std::string tested_by; ///< who measured
    std::string remarks;   ///< the person's words
    std::string program;   ///< name and version that made the record
};

/// The record of a confirmed rewind as text for a terminal or a plain printer.
std::string confirmation_page(const Confirmation&, const RecordPeople&);

/// The same as one page of HTML that needs no other file and, with the readings of one examination, prints on
/// one sheet.
std::string confirmation_record(const Confirmation&, const RecordPeople&);

/// The same as one JSON document on one line (docs/rewinding.md).
std::string confirmation_to_json(const Confirmation&, const RecordPeople&);

} // namespace coilward
