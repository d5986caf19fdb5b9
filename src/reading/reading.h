#pragma once

#include "reading/quantity.h"

#include <optional>
#include <string>

namespace coilward {

/// One answer of one meter, in SI units. Either a number with its standard uncertainty, or a state that is no
/// number, or (for the kick test) a polarity. Never edited once taken.
struct Reading {
    Quantity quantity{};
    Between between = Between::leads;
    std::optional<Circuit> circuit{};     ///< as the meter was set; absent where it makes no difference
    std::optional<double> frequency_hz{}; ///< of the test signal; absent at direct current
    State state = State::ok;              ///< ok with a number or a polarity
    std::optional<double> value{};        ///< in unit(quantity)
    std::optional<double> standard_uncertainty{}; ///< same unit, one standard deviation (JCGM 100)
    std::optional<double> limit{};  ///< end of the meter's range, with over_range and under_range; same unit
    std::optional<double> spread{}; ///< half-width of the wander, with unstable; same unit
    std::optional<Polarity> polarity{}; ///< only with what is_polarity()
    std::string coil{};                 ///< which coil of a pickup that has several; empty for the only one
    std::optional<Handling> handling{}; ///< what was done to the coil meanwhile; absent for a coil at rest

    /// To the last bit of every number.
    friend bool operator==(const Reading&, const Reading&) = default;
};

/// "series inductance at 1 kHz", "capacitance from start to frame at 1 kHz", "DC resistance of the slug
/// coil": the reading as a person names it. What makes no difference, or was not said, is left out.
std::string describe(const Reading&);

/// True where it measures the coil as it is: not a coil that is handled, nor its magnet.
bool is_at_rest(const Reading&);

/// True where two readings answer the same question: quantity, points, circuit, frequency (within one part in
/// a million), coil and handling agree. The circuit does not count where both circuits give the same number,
/// as for a quality factor, nor do points and frequency of a temperature.
bool same_question(const Reading&, const Reading&);

} // namespace coilward
