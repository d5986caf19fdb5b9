#pragma once

#include "faults.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

#include <nlohmann/json.hpp>

namespace population {

struct DrawOptions {
    std::uint64_t seed = 1;
    int count = 1000;
    Mix mix = Mix::even;
    std::string protocol = "mixed"; ///< one of protocol_names(), or `mixed`: each coil by one of them
    bool errors_joint = false;      ///< see Instruments
    bool with_earlier = false;      ///< the document holds an earlier, healthy examination of the same coil
    bool with_twin = false;         ///< and a sound twin of it
    int of_its_set = 0;             ///< and so many sound coils of its set
    bool set_is_another = false;    ///< which in truth is another set of the same construction
    std::optional<std::string> fault{};       ///< every coil has this one instead of one by the mix
    std::optional<double> shorted_fraction{}; ///< every short has this size
};

/// One coil: what the diagnosis sees and what it does not.
struct DrawnCoil {
    nlohmann::ordered_json readings;
    nlohmann::ordered_json label;
};

DrawnCoil draw_coil(const DrawOptions&, int index);

/// Writes readings.jsonl and labels.jsonl into `out`.
void write_population(const DrawOptions&, const std::filesystem::path& out);

} // namespace population
