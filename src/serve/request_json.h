#pragma once

#include "reading/json_text.h"

#include <optional>
#include <string>

namespace coilward {

/// A member of a request that is a text of at most 4000 bytes and may be empty; nothing where it is absent.
/// Throws BadDocument.
std::optional<std::string> text_in(const Placed& request, const char* key);

} // namespace coilward
