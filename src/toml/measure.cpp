#include "toml/measure.h"

#include <fmt/format.h>

namespace coilward {

std::string described(const Measure& measure) {
    const std::string_view what = measure.unit.empty() ? "a number" : measure.unit;
    if (measure.low == above_zero)
        return fmt::format("{}, more than 0 and at most {:.12g}", what, measure.high);
    return fmt::format("{} from {:.12g} to {:.12g}", what, measure.low, measure.high);
}

} // namespace coilward
