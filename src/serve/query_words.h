#pragma once

#include "rewind/confirmation_words.h"
#include "rewind/model_words.h"

#include <httplib.h>

namespace coilward {

/// What a query asks of a plan, in the words that a person typed into a form: its names, here and below, are
/// those of the commands' options without the dashes. What is not there is empty. Throws BadWords for a gauge
/// that is no whole number.

PlanWords plan_words_in(const httplib::Request&);

/// What it asks of a confirmation, with one "limit" for each limit of the order.
ConfirmationWords confirmation_words_in(const httplib::Request&);

/// What it tells of a coil that no model fits. Throws BadWords as the first.
ModelWords model_words_in(const httplib::Request&);

} // namespace coilward
