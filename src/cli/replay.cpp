#include "bench/play.h"
#include "cli/command.h"
#include "cli/input.h"
#include "cli/interrupt.h"
#include "cli/meter_words.h"
#include "cli/reading_words.h"

#include <memory>
#include <thread>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct ReplayWords {
    std::string file;
    std::string meter;
    bool full_speed = false;
    bool json = false;
};

Capture capture_in_words(const std::string& file) {
    try {
        return read_capture(file);
    } catch (const BadCapture& error) {
        throw BadInput(error.what());
    }
}

std::string driver_id(const ReplayWords& words, const Capture& capture) {
    if (!words.meter.empty()) return words.meter;
    if (capture.driver == "nobody")
        throw CLI::ValidationError("--meter", fmt::format("{} belongs to no driver; name one", words.file));
    return capture.driver;
}

/// Waits until that much time has gone by since the beginning, or an interrupt.
void wait_until(std::chrono::steady_clock::time_point moment) {
    constexpr std::chrono::milliseconds one_look{100};
    while (!is_interrupted()) {
        const auto left = moment - std::chrono::steady_clock::now();
        if (left <= left.zero()) return;
        std::this_thread::sleep_for(std::min<std::chrono::steady_clock::duration>(left, one_look));
    }
}

void run(const ReplayWords& words, const Session& session) {
    const Capture capture = capture_in_words(words.file);
    const Driver driver = driver_in_words(session, driver_id(words, capture));
    note_interrupts();
    const auto began = std::chrono::steady_clock::now();
    const auto show = [&](const StampedReading& stamped) {
        if (!words.full_speed) wait_until(began + (stamped.at - capture.began));
        if (is_interrupted()) return;
        fmt::print("{}\n", words.json ? watch_line(stamped) : reading_words(stamped));
        if (!words.full_speed) std::fflush(stdout);
    };
    const WatchEnd end = play(driver, capture, show, is_interrupted);
    std::fflush(stdout);
    fmt::print(stderr, "coilward: {} readings of {}; {}\n", end.readings, driver.id, counts_words(end));
}

} // namespace

void add_replay_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<ReplayWords>();
    CLI::App* command = app.add_subcommand("replay", "Play a capture through its driver");
    command->add_option("FILE", words->file, "The capture")->required();
    command->add_option("--meter", words->meter, "Another driver than the capture's own")
        ->type_name("DRIVER");
    command->add_flag("--full-speed", words->full_speed, "Without the pauses between the readings");
    command->add_flag("--json", words->json, "One reading a line in the readings form");
    command->callback([words, &session] { run(*words, session); });
    command->footer("Example:\n  coilward replay captures/stx16/steady.capture --full-speed");
}

} // namespace coilward
