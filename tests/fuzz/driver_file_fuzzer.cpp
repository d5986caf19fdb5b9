// drivers/*.toml. A driver that is accepted then reads its own file, as if its meter had sent it.

#include "decoding.h"
#include "meter/driver_file.h"
#include "meter/measurement.h"
#include "toml_input.h"

using namespace coilward;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto driver = read_input_file(data, size, [](const TomlSource& source, auto& complaints) {
        return read_driver(source, complaints);
    });
    if (!driver) return 0;
    require(!driver->id.empty() && !driver->setups.empty(), "an accepted driver has an id and a setup");
    require(driver->line.has_value() != (driver->scan != nullptr), "an accepted driver has one protocol");
    const std::string bytes = text_of_input(data, size);
    std::vector<DecodedReading> readings;
    for (const MeterSetup& setup : driver->setups) {
        const auto frequency = frequency_for(setup, {.quantity = setup.gives.front()});
        commands_for(setup, frequency);
        require_sound_decoding(
            {.driver = &*driver, .setting = setting_for(setup, frequency), .at_start = true}, bytes,
            bytes.size() / 2, readings);
    }
    return 0;
}
