#pragma once

#include "report/confirmation_page.h"
#include "rewind/coil_comparison.h"
#include "rewind/computed_model.h"
#include "rewind/plan_words.h"

#include <string>

/// The documents of docs/rewinding.md with "words" beside them: every number as a person is shown it. Each on
/// one line.
namespace coilward {

/// That of a plan, with its words.
std::string plan_for_page(const WholePlan&);

/// That of a confirmation, with its words.
std::string confirmation_for_page(const Confirmation&, const RecordPeople&);

/// That of a comparison, with its words.
std::string comparison_for_page(const CoilComparison&);

/// {"ranges": [...]}; a range that no answer speaks of is null.
std::string computed_ranges_for_page(const std::vector<ComputedRange>&, const std::string& trouble,
                                     const std::string& file_text);

} // namespace coilward
