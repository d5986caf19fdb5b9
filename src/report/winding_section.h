#pragma once

#include "diagnosis/place_in_winding.h"

#include <string>

namespace coilward {

/// A cross-section through the coil, shaded by where the fault likely is: the winding on both sides of the
/// core, its start inside and its finish outside. A fixed number of turns takes the same depth everywhere.
/// As lines for a terminal, each ending with a newline:
///
///       finish                        start                        finish
///       ┌────────────────────┬────────┬────────────────────┐
///     ● │          ░▒█▓░     │  core  │     ░▓█▒░          │ ●
///       └────────────────────┴────────┴────────────────────┘
std::string winding_section(const PlaceInWinding&);

/// The same as an element of a picture in SVG, its upper left corner at x, y.
std::string winding_section_svg(const PlaceInWinding&, double x, double y);

/// How much room it takes, pixels.
inline constexpr double winding_section_svg_height = 70.0;

/// What the section shows in words: the chance at each lead, and that the coil is mended from outside.
std::string place_in_words(const PlaceInWinding&);

} // namespace coilward
