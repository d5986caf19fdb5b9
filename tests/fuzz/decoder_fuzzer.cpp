// Every driver's decoder: decoder_fuzzer --driver=ID. The last bytes of an input say how the meter is set,
// whether the stream begins at a frame, and where it is cut.

#include "decoding.h"
#include "meter/driver_folder.h"
#include "meter/measurement.h"

#include <fuzzer/FuzzedDataProvider.h>

using namespace coilward;

namespace {

/// One driver with its meter set in every way; nothing of it depends on the input.
struct Fuzzed {
    const Driver* driver;
    std::vector<MeterSetting> settings;
};

const Driver& driver_in_words(int count, char** words) {
    static const std::vector<Driver> drivers = load_drivers(COILWARD_SOURCE_DIR "/drivers");
    constexpr std::string_view option = "--driver=";
    for (const std::string_view word : std::vector<std::string_view>(words, words + count)) {
        if (!word.starts_with(option)) continue;
        if (const Driver* driver = driver_named(drivers, word.substr(option.size()))) return *driver;
    }
    std::fprintf(stderr, "decoder_fuzzer: give --driver=ID with an id from drivers/\n");
    std::exit(2);
}

Fuzzed& fuzzed() {
    static Fuzzed one;
    return one;
}

} // namespace

extern "C" int LLVMFuzzerInitialize(int* count, char*** words) {
    const Driver& driver = driver_in_words(*count, *words);
    fuzzed().driver = &driver;
    for (const MeterSetup& setup : driver.setups)
        fuzzed().settings.push_back(
            setting_for(setup, frequency_for(setup, {.quantity = setup.gives.front()})));
    return 0;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static std::vector<DecodedReading> readings;
    const Fuzzed& driver = fuzzed();
    FuzzedDataProvider input(data, size);
    const auto& setting =
        driver.settings[input.ConsumeIntegralInRange<std::size_t>(0, driver.settings.size() - 1)];
    const bool at_start = !input.ConsumeBool();
    const auto cut = input.ConsumeIntegral<std::uint16_t>();
    const std::string bytes = input.ConsumeRemainingBytesAsString();
    require_sound_decoding({.driver = driver.driver, .setting = setting, .at_start = at_start}, bytes,
                           bytes.empty() ? 0 : cut % bytes.size(), readings);
    return 0;
}
