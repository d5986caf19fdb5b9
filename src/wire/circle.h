#pragma once

namespace coilward {

/// π d² / 4, square metre. Throws std::invalid_argument for a diameter that is not a positive number.
double circle_area_m2(double diameter_m);

} // namespace coilward
