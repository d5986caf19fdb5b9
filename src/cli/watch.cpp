#include "bench/capture.h"
#include "bench/lasting_watch.h"
#include "bench/recording.h"
#include "cli/interrupt.h"
#include "cli/log.h"
#include "cli/meter_words.h"
#include "cli/reading_words.h"
#include "cli/watch_view.h"

#include <deque>
#include <memory>
#include <thread>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <unistd.h>

namespace coilward {
namespace {

/// The words of the command.
struct WatchWords {
    std::vector<std::string> meters;
    std::vector<std::string> ports;
    std::size_t count = 0; ///< of each meter; 0: no end
    bool json = false;
    std::string request;
    std::vector<std::string> records;
    double patience_s = 10.0;
};

/// One meter, watched from a thread of its own.
struct WatchedMeter {
    Driver driver;
    std::string port_words;
    Port port;
    std::optional<MeasurementRequest> request;
    std::string record; ///< empty: nothing is recorded
    std::optional<Link> link;
    int recordings = 0;
    WatchEnd end{};
    std::string failure{};
};

bool is_replay(const WatchedMeter& meter) {
    return std::holds_alternative<ReplayPort>(meter.port);
}

std::optional<MeasurementRequest> request_for(const WatchWords& words, const Driver& driver) {
    if (words.request.empty()) return std::nullopt;
    auto request = request_from_text(words.request);
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

Capture capture_head(const WatchedMeter& meter) {
    Capture head;
    head.driver = meter.driver.id;
    head.title = "recorded by coilward watch";
    head.provenance = fmt::format("recorded from {}", meter.port_words);
    head.request = meter.request;
    return head;
}

/// FILE, then FILE-2, FILE-3: a capture ends where the device was pulled.
std::filesystem::path next_recording(WatchedMeter& meter) {
    std::filesystem::path file = meter.record;
    if (++meter.recordings > 1)
        file.replace_filename(
            fmt::format("{}-{}{}", file.stem().string(), meter.recordings, file.extension().string()));
    return file;
}

Link opened(WatchedMeter& meter) {
    Link link = open_port(meter.port, meter.driver.serial);
    if (!meter.request) meter.request = link.recorded_request;
    if (meter.record.empty()) return link;
    return recording(std::move(link), capture_head(meter), next_recording(meter));
}

/// The meters in the order of their words, each with its port open.
std::deque<WatchedMeter> meters_in(const WatchWords& words, const Session& session) {
    const auto same_count = [&](std::size_t count, const char* option) {
        if (count != words.meters.size())
            throw CLI::ValidationError(option, fmt::format("{} meters and {} of these; give one {} for each "
                                                           "--meter, in the same order",
                                                           words.meters.size(), count, option));
    };
    same_count(words.ports.size(), "--port");
    if (!words.records.empty()) same_count(words.records.size(), "--record");
    std::deque<WatchedMeter> meters;
    for (std::size_t i = 0; i < words.meters.size(); ++i) {
        Driver driver = driver_in_words(session, words.meters[i]);
        auto request = request_for(words, driver);
        meters.push_back({.driver = std::move(driver),
                          .port_words = words.ports[i],
                          .port = port_in_words(words.ports[i]),
                          .request = std::move(request),
                          .record = words.records.empty() ? "" : words.records[i]});
    }
    for (WatchedMeter& meter : meters) {
        try {
            meter.link = opened(meter);
        } catch (const BadCapture& error) {
            throw BadInput(error.what());
        }
    }
    return meters;
}

/// Why the work could not be done, or nothing where it was.
std::string failure_of(const WatchedMeter& meter, const WatchWords& words) {
    const WatchEnd& end = meter.end;
    const std::string had = fmt::format("after {} readings", end.readings);
    switch (end.why) {
    case WatchEnd::Why::counted:
    case WatchEnd::Why::stopped:
        return {};
    case WatchEnd::Why::ended:
        return words.count == 0
                   ? std::string()
                   : fmt::format("{}: the capture ended {}; ask for fewer", meter.port_words, had);
    case WatchEnd::Why::unplugged:
        return fmt::format("{}: the meter is gone {}; check its plug and start again", meter.port_words, had);
    case WatchEnd::Why::silent:
        break;
    }
    if (end.silent_bytes > 0)
        return fmt::format("{}: bytes arrive {} but none is a reading of {}; check speed, parity and --meter",
                           meter.port_words, had, meter.driver.id);
    return fmt::format("{}: the meter is silent {}; check that it is on and that its output is switched on",
                       meter.port_words, had);
}

/// The quantities that were asked for; empty where the meter is read as it is set.
std::vector<Quantity> wanted_of(const WatchedMeter& meter) {
    std::vector<Quantity> wanted;
    const MeterSetup* setup = meter.request ? setup_for(meter.driver, *meter.request) : nullptr;
    if (!setup) return wanted;
    for (const Quantity quantity : setup->gives)
        wanted.push_back(as_requested({.quantity = quantity}, *meter.request).quantity);
    return wanted;
}

WatchOrder order_for(const WatchWords& words, const WatchedMeter& meter, WatchView& view, std::size_t row) {
    WatchOrder order;
    order.request = meter.request;
    if (words.count > 0) order.count = words.count;
    order.patience = std::chrono::milliseconds(static_cast<long>(words.patience_s * 1000.0));
    order.stop = is_interrupted;
    if (!is_replay(meter)) order.quiet = [&view, row](const Quiet& quiet) { view.take(row, quiet); };
    return order;
}

void watch_one(const WatchWords& words, WatchedMeter& meter, WatchView& view, std::size_t row,
               const Log& log) {
    const WatchOrder order = order_for(words, meter, view, row);
    const auto show = [&](const StampedReading& stamped) { view.take(row, stamped); };
    try {
        if (is_replay(meter)) {
            MeterSession session(meter.driver, std::move(*meter.link));
            meter.end = watch(session, order, show);
        } else {
            const auto open = [&] {
                if (!meter.link) return opened(meter);
                Link first = std::move(*meter.link);
                meter.link.reset();
                return first;
            };
            meter.end = watch_lasting(
                meter.driver, open, order,
                {.reading = show,
                 .lost =
                     [&] {
                         view.lost(row);
                         warn(log, fmt::format("{} on {}: lost", meter.driver.id, meter.port_words));
                     },
                 .back =
                     [&] {
                         view.back(row);
                         note(log, fmt::format("{} on {}: back", meter.driver.id, meter.port_words));
                     }});
        }
        const std::string failed = failure_of(meter, words);
        meter.failure = failed.empty() ? "" : failed + "; " + counts_words(meter.end);
    } catch (const std::exception& error) {
        meter.failure = error.what();
    }
}

WatchForm form_of(const WatchWords& words) {
    if (words.json) return WatchForm::json;
    return ::isatty(STDOUT_FILENO) != 0 ? WatchForm::screen : WatchForm::lines;
}

/// The last line of each meter.
void print_end(const WatchedMeter& meter, bool one_of_several) {
    const std::string which = one_of_several ? meter.port_words + ": " : "";
    fmt::print(stderr, "coilward: {}\n",
               meter.failure.empty() ? which + counts_words(meter.end) : meter.failure);
}

/// A draft never passes for more.
void warn_of_draft(const Driver& driver) {
    if (driver.status == DriverStatus::draft)
        fmt::print(stderr,
                   "coilward: {} is a draft: compare its readings with the meter's display (coilward "
                   "ports --meters says what is not known)\n",
                   driver.id);
}

void run(const WatchWords& words, Session& session) {
    const Log log = open_log(session);
    std::deque<WatchedMeter> meters = meters_in(words, session);
    std::vector<WatchRow> rows;
    for (const WatchedMeter& meter : meters)
        rows.push_back({.meter = meter.driver.id,
                        .port = meter.port_words,
                        .wanted = wanted_of(meter),
                        .count = words.count > 0 ? std::optional(words.count) : std::nullopt});
    for (const WatchedMeter& meter : meters)
        warn_of_draft(meter.driver);
    WatchView view(std::move(rows), form_of(words));
    note_interrupts();
    std::vector<std::thread> threads;
    for (std::size_t i = 1; i < meters.size(); ++i)
        threads.emplace_back([&, i] { watch_one(words, meters[i], view, i, log); });
    watch_one(words, meters.front(), view, 0, log);
    for (std::thread& thread : threads)
        thread.join();
    for (const WatchedMeter& meter : meters) {
        print_end(meter, meters.size() > 1);
        if (!meter.failure.empty()) session.exit_code = 1;
    }
}

} // namespace

void add_watch_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<WatchWords>();
    CLI::App* command = app.add_subcommand("watch", "Print the readings of meters as they arrive");
    command->add_option("--meter", words->meters, "The driver, as dmm-scpi; once for each meter")
        ->type_name("DRIVER")
        ->required()
        ->allow_extra_args(false);
    command
        ->add_option("--port", words->ports,
                     "Its port: a serial device, another terminal device, tcp://HOST:PORT, or replay:FILE "
                     "for a capture")
        ->type_name("PORT")
        ->required()
        ->allow_extra_args(false);
    command->add_option("--count", words->count, "Stop after so many readings of each meter");
    command->add_flag("--json", words->json, "One reading a line in the readings form");
    command
        ->add_option("--measure", words->request,
                     "Set the meters for this first, as \"inductance series 1000\"; else they are read as "
                     "they are set")
        ->type_name("QUANTITY");
    command
        ->add_option("--record", words->records,
                     "Write every byte of both directions to this new capture file; once for each meter")
        ->type_name("FILE")
        ->allow_extra_args(false);
    command->add_option("--patience", words->patience_s,
                        "Seconds to bear silence, or wait for an unplugged meter; 0 for ever");
    command->callback([words, &session] { run(*words, session); });
    command->footer("A meter that is unplugged goes on by itself when it is back.\n\nExample:\n"
                    "  coilward watch --meter lcr-fetch-ab --port /dev/ttyUSB0 --count 4 --json");
}

} // namespace coilward
