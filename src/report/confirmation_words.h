#pragma once

#include "rewind/confirmation.h"

#include <string>

/// What the record says alike in text and in HTML.
namespace coilward {

/// "PASS", "FAIL", "MEASURE BETTER".
std::string decision_in_capitals(Decision);

/// "inductance at 1 kHz".
std::string title_of(const Requirement&);

/// "5.70 to 6.60 kΩ", "at least 10.0 MΩ".
std::string limits_in_words(const Requirement&);

/// "6.05 ± 0.04 kΩ", or "–" where it cannot be judged.
std::string judged_in_words(const Checked&);

/// "99.8 %", or "–".
std::string probability_in_words(const Checked&);

/// "Pass where the value lies inside of the limits by more than 1.64 standard uncertainties …" Throws as
/// guard_band() does.
std::string rule_in_words(const ConfirmationRule&);

/// "21.4 ± 0.5 °C, read during the visit".
std::string temperature_in_words(const Confirmation&);

/// "Pickup 3: Neck, red guitar, the slug coil".
std::string subject_in_words(const Confirmation&);

/// "typed in" or the driver and its port.
std::string source_of(const StoredReading&);

} // namespace coilward
