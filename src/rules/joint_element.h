#pragma once

#include "rules/fault.h"
#include "rules/pickup_type.h"

namespace coilward {

/// The element that a change puts into the joint, or across the whole, and whose severities it has; none for
/// a change that is no element.
Primitive primitive_of(JointChange);

} // namespace coilward
