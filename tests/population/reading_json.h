#pragma once

#include <complex>
#include <optional>
#include <string>

#include <nlohmann/json.hpp>

namespace population {

/// A reading in the documents' form.
using ReadingJson = nlohmann::ordered_json;

/// What is read, in the words of the documents; empty where it does not apply.
struct Question {
    std::string quantity;
    std::string between;
    std::string circuit;
    double frequency_hz = 0.0;
};

/// The SI unit of a quantity, as documents write it.
const char* unit_of(const std::string& quantity);

/// What an ideal LCR meter shows of an impedance. Capacitance is in the parallel form unless the question
/// says series: the impedance to the frame is high, and there meters use that form. Throws
/// std::invalid_argument.
double quantity_of(const std::complex<double>& impedance, const Question&);

/// `value` with so many significant digits.
double rounded(double value, int significant);

ReadingJson number(const Question&, double value, double standard_uncertainty);
ReadingJson wandering(const Question&, double value, double spread);
ReadingJson over_range(const Question&, std::optional<double> limit);

} // namespace population
