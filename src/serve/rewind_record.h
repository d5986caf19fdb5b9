#pragma once

#include "report/confirmation_page.h"
#include "rewind/confirmation_words.h"

#include <string>

namespace coilward {

/// The record of a rewind as a page, and the content-security policy under which it may be shown: nothing
/// but its own style, by its hash (Content Security Policy Level 3, 6.7.3.3).
struct RewindRecord {
    std::string page;   ///< HTML, whole
    std::string policy; ///< value of Content-Security-Policy
};

/// The pickup's latest visit, confirmed. Throws CannotExamine where it had none, BadWords and HistoryError.
Confirmation latest_confirmed(const History&, const Pickup&, const Rules&, const ConfirmationWords&);

/// The record made out by and for these people.
RewindRecord rewind_record(const Confirmation&, const RecordPeople&);

} // namespace coilward
