#pragma once

/// Accuracy specifications as data sheets print them, evaluated to half-widths in the unit of the reading.
namespace coilward {

/// "± (0.2 % + 2)": per cent of the reading plus counts of the last digit.
struct Accuracy {
    double percent_of_reading = 0.0;
    double counts = 0.0;
    double least_digit = 0.0; ///< what one count is on the range in use, in the unit of the reading
};

/// In the unit of the reading, 0 or more: percent_of_reading / 100 · |reading| + counts · least_digit.
double half_width(const Accuracy&, double reading);

/// Which part of an impedance is specified: the reactive one (L, C, X) is hard to see beside much resistance,
/// the resistive one (R) beside much reactance.
enum class ImpedancePart { reactive, resistive };

/// √(1 + D²) for the reactive and √(1 + Q²) for the resistive part, by which data sheets multiply the basic
/// accuracy where D, or Q, is above 0.1; 1 below. Source: manuals of laboratory LCR meters (Agilent 4285A p.
/// 6; GW Instek LCR-6000 p. 133). Throws std::invalid_argument where Q is not above 0
/// or not finite.
double low_quality_factor_multiplier(ImpedancePart, double quality_factor);

/// The specification of a bench LCR meter that grows as the wanted part of the impedance gets smaller beside
/// the other:
///   fixed % + scaled % · range · (1 + 1/Q) · (1 + Kb + Kc)    for L and C
///   fixed % + scaled % · range · (1 + Q) · (1 + Kb + Kc)      for R
/// with range = 1 + Ka between the ends of the middle range, X / Ymax above and Ymin / X below it. Source: GW
/// Instek LCR-800 series manual p. 39. The test frequency counts through Q = 2πfL / R.
struct LcrAccuracy {
    double fixed_percent = 0.0;         ///< of the reading
    double scaled_percent = 0.0;        ///< of the reading, before the factors above
    double voltage_factor = 0.0;        ///< Ka
    double speed_factor = 0.0;          ///< Kb
    double cable_factor = 0.0;          ///< Kc
    double middle_range_from_ohm = 0.0; ///< Ymin; 0 where the range has no lower end
    double middle_range_to_ohm = 0.0;   ///< Ymax; 0 where the range has no upper end
};

/// Per cent of the reading. Throws std::invalid_argument where the impedance or Q is not above 0 or not
/// finite.
double lcr_accuracy_percent(const LcrAccuracy&, ImpedancePart, double impedance_ohm, double quality_factor);

/// Q = 2πfL / R of a series inductance and resistance. Throws std::invalid_argument where the resistance is
/// not above 0 or not finite.
double series_quality_factor(double frequency_hz, double inductance_h, double resistance_ohm);

} // namespace coilward
