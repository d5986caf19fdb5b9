#include "bench/watch.h"

#include "bench/capture.h"
#include "bench/recording.h"
#include "cli/meter_words.h"
#include "units/engineering.h"

#include <csignal>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

/// The words of the command.
struct WatchWords {
    std::string meter;
    std::string port;
    std::size_t count = 0; ///< 0: no end
    bool json = false;
    std::string request;
    std::string record;
    double patience_s = 10.0;
};

volatile std::sig_atomic_t interrupted = 0;

void note_interrupt(int) {
    interrupted = 1;
}

std::optional<MeasurementRequest> request_for(const WatchWords& words, const Driver& driver) {
    if (words.request.empty()) return std::nullopt;
    const auto request = request_from_text(words.request);
    if (!request)
        throw CLI::ValidationError("--measure",
                                   fmt::format("\"{}\" is no request; write one as \"inductance series "
                                               "1000\" or \"capacitance 1000 start-frame\"",
                                               words.request));
    if (!setup_for(driver, *request))
        throw CLI::ValidationError("--measure",
                                   fmt::format("{} cannot measure {}", driver.id, words.request));
    return request;
}

Link link_for(const WatchWords& words, const Driver& driver) {
    try {
        return open_port(port_in_words(words.port), driver.serial);
    } catch (const BadCapture& error) {
        throw BadInput(error.what());
    }
}

Capture capture_head(const WatchWords& words, const Driver& driver,
                     const std::optional<MeasurementRequest>& request) {
    Capture head;
    head.driver = driver.id;
    head.title = "recorded by coilward watch";
    head.provenance = fmt::format("recorded from {}", words.port);
    head.request = request;
    return head;
}

void print_for_people(const StampedReading& stamped) {
    const Reading& reading = stamped.reading;
    const std::string shown = reading.value && reading.state == State::ok
                                  ? engineering(*reading.value, unit(reading.quantity), 6)
                                  : std::string(name(reading.state));
    fmt::print("{}  {}: {}{}\n", text_of(stamped.at), describe(reading), shown,
               stamped.note.empty() ? "" : " (" + stamped.note + ")");
}

void print(const StampedReading& stamped, bool json) {
    if (json)
        fmt::print("{}\n", watch_line(stamped));
    else
        print_for_people(stamped);
    std::fflush(stdout);
}

/// "bytes that were no reading: 14 (bad_structure 1)"
std::string no_reading(const WatchEnd& end) {
    const VerdictCounts& counts = end.counts;
    std::string text = fmt::format("bytes that were no reading: {}", counts.bytes_that_are_no_reading());
    std::vector<std::string> kinds;
    for (const Verdict verdict : {Verdict::too_short, Verdict::no_start, Verdict::bad_structure,
                                  Verdict::bad_check, Verdict::senseless, Verdict::not_live})
        if (counts.pieces(verdict) > 0)
            kinds.push_back(fmt::format("{} {}", name(verdict), counts.pieces(verdict)));
    if (!kinds.empty()) text += fmt::format(" ({})", fmt::join(kinds, ", "));
    if (!end.last_note.empty()) text += "; last: " + end.last_note;
    return text;
}

/// Why the work could not be done, or nothing where it was.
std::string failure(const WatchEnd& end, const WatchWords& words) {
    const std::string had = fmt::format("after {} readings", end.readings);
    switch (end.why) {
    case WatchEnd::Why::counted:
    case WatchEnd::Why::stopped:
        return {};
    case WatchEnd::Why::ended:
        return words.count == 0 ? std::string()
                                : fmt::format("{}: the capture ended {}; ask for fewer", words.port, had);
    case WatchEnd::Why::unplugged:
        return fmt::format("{}: the meter is gone {}; check its plug and start again", words.port, had);
    case WatchEnd::Why::silent:
        break;
    }
    if (end.silent_bytes > 0)
        return fmt::format("{}: bytes arrive {} but none is a reading of {}; check speed, parity and --meter",
                           words.port, had, words.meter);
    return fmt::format("{}: the meter is silent {}; check that it is on and that its output is switched on",
                       words.port, had);
}

void run(const WatchWords& words, Session& session) {
    const Driver driver = driver_in_words(session, words.meter);
    WatchOrder order;
    order.request = request_for(words, driver);
    if (words.count > 0) order.count = words.count;
    order.patience = std::chrono::milliseconds(static_cast<long>(words.patience_s * 1000.0));
    order.stop = [] { return interrupted != 0; };
    Link link = link_for(words, driver);
    if (!order.request) order.request = link.recorded_request;
    if (!words.record.empty())
        link = recording(std::move(link), capture_head(words, driver, order.request), words.record);
    std::signal(SIGINT, note_interrupt);
    MeterSession meter(driver, std::move(link));
    const WatchEnd end =
        watch(meter, order, [&](const StampedReading& stamped) { print(stamped, words.json); });
    const std::string failed = failure(end, words);
    fmt::print(stderr, "coilward: {}{}\n", failed.empty() ? "" : failed + "; ", no_reading(end));
    if (!failed.empty()) session.exit_code = 1;
}

} // namespace

void add_watch_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<WatchWords>();
    CLI::App* command = app.add_subcommand("watch", "Print a meter's readings as they arrive");
    command->add_option("--meter", words->meter, "The driver, as dmm-scpi")->required();
    command
        ->add_option(
            "--port", words->port,
            "A serial device, another terminal device, tcp://HOST:PORT, or replay:FILE for a capture")
        ->required();
    command->add_option("--count", words->count, "Stop after so many readings");
    command->add_flag("--json", words->json, "One reading a line in the readings form");
    command->add_option(
        "--measure", words->request,
        "Set the meter for this first, as \"inductance series 1000\"; else it is read as it is set");
    command->add_option("--record", words->record,
                        "Write every byte of both directions to this new capture file");
    command->add_option("--patience", words->patience_s, "Seconds of silence to bear; 0 for ever");
    command->callback([words, &session] { run(*words, session); });
    command->footer("Example:\n  coilward watch --meter lcr-fetch-ab --port /dev/ttyUSB0 --count 4 --json");
}

} // namespace coilward
