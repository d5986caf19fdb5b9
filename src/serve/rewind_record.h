#pragma once

#include "report/confirmation_page.h"
#include "rules/rules.h"

#include <string>

namespace coilward {

/// The record of a rewind as a page, and the content-security policy under which it may be shown: nothing
/// but its own style, by its hash (Content Security Policy Level 3, 6.7.3.3).
struct RewindRecord {
    std::string page;
    std::string policy;
};

/// The pickup's latest visit against the limits of its coil model. Throws CannotExamine where there is
/// nothing to confirm, and HistoryError.
RewindRecord rewind_record(const History&, const Pickup&, const Rules&, const std::string& coil,
                           const RecordPeople&);

} // namespace coilward
