// beside [impedance] [posterior] [decoders]: prints a JSON array of rows (row.h) of these parts, or of all.

#include "beside/row.h"

#include <algorithm>
#include <array>
#include <exception>
#include <iostream>
#include <string_view>
#include <vector>

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

struct Part {
    std::string_view name;
    std::vector<coilward::Row> (*rows)();
};

constexpr std::array<Part, 3> parts{{{"impedance", coilward::rows_of_impedance},
                                     {"posterior", coilward::rows_of_posterior},
                                     {"decoders", coilward::rows_of_decoders}}};

} // namespace

int main(int count, char** words) try {
    const std::vector<std::string_view> wanted(words + 1, words + count);
    for (const std::string_view word : wanted)
        if (std::ranges::find(parts, word, &Part::name) == parts.end()) {
            std::cerr << "beside: found \"" << word << "\", expected impedance, posterior or decoders\n";
            return 2;
        }
    nlohmann::json rows = nlohmann::json::array();
    for (const Part& part : parts)
        if (wanted.empty() || std::ranges::find(wanted, part.name) != wanted.end())
            for (const coilward::Row& row : part.rows())
                rows.push_back(json_of(row));
    std::cout << rows.dump(1) << '\n';
    return 0;

} catch (const std::exception& error) {

    std::cerr << "beside: " << error.what() << '\n';
    return 1;
}
