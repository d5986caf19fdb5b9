#pragma once

#include <string>
#include <vector>

namespace coilward {

/// The same work done twice.
struct Row {
    std::string work;
    std::string beside;         ///< what did it too
    double our_seconds = 0.0;   ///< processor time
    double their_seconds = 0.0; ///< likewise
    double least_ratio = 0.0;   ///< of theirs to ours, that is asked for; 0: none
    std::string agreement;      ///< how far the two answers are apart
};

std::vector<Row> rows_of_impedance();
std::vector<Row> rows_of_posterior();
std::vector<Row> rows_of_decoders();

} // namespace coilward
