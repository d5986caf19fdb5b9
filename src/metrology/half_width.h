#pragma once

#include <initializer_list>

/// From what a data sheet or a display says to standard uncertainties (JCGM 100:2008, 4.3).
namespace coilward {

/// How probable the values between -a and +a are, where only the half-width a is known.
enum class ErrorShape {
    rectangular, ///< all alike: a / √3, the usual reading of an accuracy specification
    triangular,  ///< the middle more probable: a / √6
    arcsine,     ///< the ends more probable, as of a sinusoidal disturbance: a / √2
    normal_k2,   ///< a is an expanded uncertainty with coverage factor 2: a / 2
    normal_95,   ///< a holds 95 % of a normal distribution: a / 1.959964
};

/// In the unit of the half-width. Each function here throws std::invalid_argument for a number below 0 or not
/// finite.
double half_width_to_standard_uncertainty(double half_width, ErrorShape = ErrorShape::rectangular);

/// Of a display whose last digit counts `step`: step / (2 √3) (JCGM 100:2008, F.2.2.1).
double resolution_to_standard_uncertainty(double step);

/// Independent contributions combined in quadrature (JCGM 100:2008, 5.1.2), such as those of a meter's
/// specification, of its resolution, and of the scatter of repeated readings.
double combined_standard_uncertainty(std::initializer_list<double> contributions);

} // namespace coilward
