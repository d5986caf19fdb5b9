// rules/coils/*.toml

#include "rules/coil_model_file.h"
#include "toml_input.h"

#include <cmath>

using namespace coilward;

namespace {

void require_range(const Range& range) {
    require(std::isfinite(range.low) && std::isfinite(range.high) && range.low < range.high &&
                range.low >= 0.0,
            "an accepted range is finite, positive and the right way round");
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto model = read_input_file(data, size, [](const TomlSource& source, auto& complaints) {
        IdsInFolder ids({});
        return read_coil_model(source, ids, complaints);
    });
    if (!model) return 0;
    require(!model->id.empty(), "an accepted coil model has an id");
    require(std::isfinite(model->test_frequency_hz) && model->test_frequency_hz > 0.0,
            "an accepted test frequency is a frequency");
    require_range(model->dc_resistance_ohm);
    for (const auto& range : {model->turns, model->mean_turn_length_m, model->inductance_h,
                              model->quality_factor, model->self_capacitance_f, model->frame_capacitance_f})
        if (range) require_range(*range);
    return 0;
}
