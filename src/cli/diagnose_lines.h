#pragma once

#include "rules/rules.h"

#include <iosfwd>

namespace coilward {

/// Answers each line of `in` (a readings document) with one line of `out`, in order: a diagnosis, or what is
/// wrong with the line. Lines that have arrived together are judged side by side, one thread a processor; a
/// line that comes alone is answered at once.
void diagnose_lines(const Rules&, std::istream& in, std::ostream& out);

} // namespace coilward
