#include "sample_rules.h"

#include <fstream>
#include <iterator>
#include <stdexcept>

#include <fmt/format.h>
#include <stdlib.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view coil = R"(id = "a"
title = "A coil"
source = "invented for the tests"

[wire]
awg = 42
insulation = "plain enamel"

[winding]
turns = [7500, 8100]
mean_turn_length = [0.118, 0.126]

[bobbin]
core_length = 0.056
core_width = 0.0048
wound_height = 0.0105
flange_length = 0.070
flange_width = 0.016

[expect]
test_frequency = 1000
circuit = "series"
dc_resistance = [5700, 6600]
inductance = [2.10, 2.62]
quality_factor = [2.00, 2.70]
self_capacitance = [70e-12, 155e-12]
frame_capacitance = [20e-12, 60e-12]
)";

constexpr std::string_view pickup = R"(id = "pair"
title = "Two coils"
source = "invented for the tests"
join = "series"
coupling = [0.03, 0.25]
decide = 0.9

[[coil]]
name = "one"
models = ["a"]
winding = "clockwise"
magnet = "north-up"

[[coil]]
name = "two"
winding = "counter-clockwise"
magnet = "south-up"

[allows]
turns = [3000, 9500]
inductance = [0.8, 8.0]
inductance_per_ohm2 = [3e-8, 2.5e-7]
quality_factor = [0.6, 5.0]
self_capacitance = [30e-12, 300e-12]
frame_capacitance = [5e-12, 200e-12]

[[joint]]
id = "right"
title = "Right"
prior = 0.7
change = "none"
advice = ["Leave it."]

[[joint]]
id = "torn"
title = "Torn"
prior = 0.2
change = "open"
advice = ["Solder it."]

[[joint.severity]]
name = "series_resistance"
distribution = "log-uniform"
bands = [[150, 1e13]]
points = 20

[[joint.severity]]
name = "series_capacitance"
distribution = "log-normal"
median = 20e-12
log_deviation = 1.2

[[joint]]
id = "else"
title = "Something else"
prior = 0.1
change = "unlisted"
advice = ["Look again."]
)";

constexpr std::string_view fault = R"(id = "{0}"
title = "{0}"
source = "invented for the tests"
status = "draft"
prior = 0.3
primitive = "{1}"
unstable = 0.01
decide = 0.95
advice = ["Do what is right."]
cautions = ["Take care."]

[polarity]
as_expected = 0.98
reversed = 0.015
none = 0.005
{2}
[[sign]]
reading = "DC resistance"
shows = "something"

[[case]]
name = "fires"
fires = true
coil_model = "a"
readings = [
  {{ quantity = "dc_resistance", value = 6000.0, unit = "ohm", standard_uncertainty = 9.0 }},
]

[[case]]
name = "near miss"
fires = false
coil_model = "a"
readings = [
  {{ quantity = "polarity", value = "none" }},
]
)";

constexpr std::string_view leak = R"(
[[severity]]
name = "leak_resistance"
distribution = "log-uniform"
bands = [[10, 1000], [2000, 1e8]]
points = 14
estimated = true

[[severity]]
name = "leak_position"
distribution = "uniform"
bands = [[0, 1]]
at_ends = 0.1
points = 5
)";

constexpr std::string_view bench = R"([[reading]]
quantity = "dc_resistance"
seconds = 10
relative_uncertainty = 0.003
absolute_uncertainty = 3.0
range_limit = 20e6
how = "Clip a probe to each lead."

[[reading]]
quantity = "inductance"
between = "leads"
frequency = 1000
seconds = 15
relative_uncertainty = 0.005
absolute_uncertainty = 0
how = "Clip the meter to the leads."

[[reading]]
quantity = "polarity"
seconds = 30
how = "Touch a pole with steel."
)";

fs::path fresh_folder() {
    std::string name = (fs::temp_directory_path() / "rules-XXXXXX").string();
    if (!mkdtemp(name.data())) throw std::runtime_error("no temporary folder: " + name);
    return name;
}

} // namespace

SampleRules::SampleRules() : folder_(fresh_folder()) {
    for (const char* name : {"coils", "pickups", "faults"})
        fs::create_directory(folder_ / name);
    write("coils/a.toml", coil);
    write("pickups/pair.toml", pickup);
    write("faults/sound.toml", fmt::format(fault, "sound", "none", ""));
    write("faults/leaky.toml", fmt::format(fault, "leaky", "leak", leak));
    write("faults/other.toml", fmt::format(fault, "other", "unlisted", ""));
    write("bench.toml", bench);
}

SampleRules::~SampleRules() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
}

void SampleRules::write(std::string_view file, std::string_view text) const {
    std::ofstream out(folder_ / file, std::ios::binary);
    out << text;
    if (!out.flush()) throw std::runtime_error(fmt::format("cannot write {}", file));
}

std::string SampleRules::text_of(std::string_view file) const {
    std::ifstream in(folder_ / file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

void SampleRules::replace(std::string_view file, std::string_view old_text, std::string_view new_text) const {
    std::string text = text_of(file);
    const std::size_t at = text.find(old_text);
    if (at == std::string::npos || text.find(old_text, at + 1) != std::string::npos)
        throw std::logic_error(fmt::format("{} does not hold this exactly once: {}", file, old_text));
    write(file, text.replace(at, old_text.size(), new_text));
}

std::string SampleRules::relative(std::string text) const {
    const std::string path = folder_.string();
    for (std::size_t at = text.find(path); at != std::string::npos; at = text.find(path, at))
        text.replace(at, path.size(), "rules");
    return text;
}

} // namespace coilward
