#pragma once

#include "random.h"
#include "reading_json.h"

namespace population {

/// The instruments of one bench. Accuracies are the half-widths that a data sheet states; the standard
/// uncertainty is the half-width over √3 (JCGM 100, 4.3.7), and the errors are normal with it.
struct Instruments {
    double thermometer_k = 0.5; ///< standard uncertainty
    double ohmmeter_relative = 0.002;
    double ohmmeter_counts = 2.0;
    double display_counts = 20000.0;
    double ohmmeter_limit_ohm = 40e6;
    double insulation_limit_ohm = 20e6;
    double lcr_relative = 0.003;
    double lcr_limit_ohm = 20e6;
    bool shows_negative = true; ///< a capacitive impedance gives a negative inductance; else none is shown
    bool errors_joint = false;  ///< L, R and Q of one measurement share its errors of magnitude and phase
};

Instruments draw_instruments(bool errors_joint, Random&);

/// The impedance at the moment of the reading and at the two extremes between which it wanders.
struct Seen {
    std::complex<double> now;
    std::complex<double> low;
    std::complex<double> high;
    bool wanders = false;
};

/// One alternating-current measurement: the display shows several quantities of the same impedance.
class LcrMeasurement {
public:
    LcrMeasurement(const Instruments&, const Seen&, Random&);

    /// Nothing where the display shows dashes.
    std::optional<ReadingJson> read(const Question&, Random&) const;

private:
    enum class Display { number, over_range, dashes };

    Display display(const Question&) const;
    double relative_half_width(double frequency_hz) const;
    double standard_uncertainty(const Question&) const;
    double value_with_error(const Question&, Random&) const;
    std::complex<double> with_joint_error(double relative) const;

    Instruments instruments_;
    Seen seen_;
    std::complex<double> joint_error_; ///< of the logarithm of the impedance, in standard uncertainties
};

ReadingJson read_temperature(const Instruments&, double temperature_c, Random&);
ReadingJson read_dc_resistance(const Instruments&, const Seen&, Random&);
ReadingJson read_insulation(const Instruments&, const std::string& between, const Seen&, Random&);

} // namespace population
