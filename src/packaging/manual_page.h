#pragma once

#include "packaging/described_command.h"

namespace coilward {

/// A command's manual page for section 1, in the man macros of roff (groff_man(7)).
std::string manual_page(const DescribedCommand&, const DescribedCommand& program, const std::string& version);

} // namespace coilward
