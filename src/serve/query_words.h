#pragma once

#include "rewind/confirmation_words.h"
#include "rewind/model_words.h"

#include <httplib.h>

namespace coilward {

// What a query asks for, in the words that a person typed into a form: its names are those of the commands'
// options without the dashes. What is not there is empty.

PlanWords plan_words_in(const httplib::Request&);

/// With one "limit" for each limit of the order.
ConfirmationWords confirmation_words_in(const httplib::Request&);

ModelWords model_words_in(const httplib::Request&);

} // namespace coilward
