// Writes what the meters of all captures sent into one folder a driver, as seeds for decoder_fuzzer:
// fuzz_seeds CAPTURES OUT.

#include "bench/capture.h"

#include <filesystem>
#include <fstream>
#include <iostream>

namespace fs = std::filesystem;

namespace {

/// The settings in which decoder_fuzzer reads its input stand at its end: first setup, at a frame, uncut.
constexpr std::string_view plain_settings{"\0\0\0\0", 4};

void write_seed(const fs::path& capture_file, const fs::path& out) {
    const coilward::Capture capture = coilward::read_capture(capture_file);
    const fs::path folder = out / capture.driver;
    fs::create_directories(folder);
    std::ofstream seed(folder / capture_file.stem(), std::ios::binary);
    for (const coilward::CaptureEvent& event : capture.events)
        if (event.kind == coilward::CaptureEvent::Kind::received) seed << event.bytes;
    seed << plain_settings;
}

} // namespace

int main(int count, char** words) try {
    if (count != 3) {
        std::cerr << "expected fuzz_seeds CAPTURES OUT\n";
        return 2;
    }
    for (const auto& each : fs::recursive_directory_iterator(words[1]))
        if (each.path().extension() == ".capture") write_seed(each.path(), words[2]);
    return 0;

} catch (const std::exception& error) {

    std::cerr << "fuzz_seeds: " << error.what() << '\n';
    return 1;
}
