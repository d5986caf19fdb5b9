// rules/faults/*.toml

#include "rules/fault_file.h"
#include "toml_input.h"

#include <cmath>

using namespace coilward;

namespace {

void require_distribution(const Distribution& distribution) {
    require(std::isfinite(distribution.value) && std::isfinite(distribution.median) &&
                std::isfinite(distribution.log_deviation) && std::isfinite(distribution.at_ends),
            "an accepted distribution is finite");
    for (const Distribution::Band& band : distribution.bands)
        require(std::isfinite(band.low) && std::isfinite(band.high) && band.low < band.high,
                "an accepted band is finite and the right way round");
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const IdsInFolder coil_models({"six-rod-42.toml", "slug-coil-42.toml", "screw-coil-42.toml"});
    const auto fault = read_input_file(data, size, [](const TomlSource& source, auto& complaints) {
        IdsInFolder ids({});
        return read_fault(source, ids, coil_models, complaints);
    });
    if (!fault) return 0;
    require(std::isfinite(fault->prior) && fault->prior > 0.0, "an accepted prior is positive");
    require(fault->decide_at >= 0.5 && fault->decide_at <= 1.0, "an accepted threshold is a probability");
    for (const Severity& severity : fault->severities)
        require_distribution(severity.distribution);
    return 0;
}
