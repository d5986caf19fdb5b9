// Prints a JSON array of rows: see row.h.

#include "beside/row.h"

#include <exception>
#include <iostream>

#include <nlohmann/json.hpp>

namespace {

nlohmann::json json_of(const coilward::Row& row) {
    return {{"work", row.work},
            {"beside", row.beside},
            {"our_seconds", row.our_seconds},
            {"their_seconds", row.their_seconds},
            {"ratio", row.their_seconds / row.our_seconds},
            {"least_ratio", row.least_ratio},
            {"agreement", row.agreement}};
}

} // namespace

int main() try {
    nlohmann::json rows = nlohmann::json::array();
    for (const auto& part :
         {coilward::rows_of_impedance, coilward::rows_of_posterior, coilward::rows_of_decoders})
        for (const coilward::Row& row : part())
            rows.push_back(json_of(row));
    std::cout << rows.dump(1) << '\n';
    return 0;

} catch (const std::exception& error) {

    std::cerr << "beside: " << error.what() << '\n';
    return 1;
}
