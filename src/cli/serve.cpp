#include "bench/clock.h"
#include "cli/history.h"
#include "cli/input.h"
#include "cli/interrupt.h"
#include "cli/log.h"
#include "cli/meter_words.h"
#include "serve/bench_server.h"
#include "toml/utf8.h"

#include <deque>
#include <memory>
#include <optional>
#include <thread>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct ServeWords {
    std::string listen = "127.0.0.1";
    std::vector<std::string> meters;
    std::vector<std::string> ports;
};

ListenAddress address_in(const ServeWords& words) {
    try {
        return listen_address_from_text(words.listen);
    } catch (const std::invalid_argument& error) {
        throw CLI::ValidationError("--listen", error.what());
    }
}

void show_code(const std::string& code) {
    fmt::print("Pairing code for the next device: {} {}\n", code.substr(0, 4), code.substr(4));
    std::fflush(stdout);
}

/// Into the log, in words.
ServeListener listener_for(const Log& log) {
    return {.refused =
                [log](const std::string& method, const std::string& path, int status) {
                    warn(log, fmt::format("{} {}: answered {}", method, printable(path), status));
                },
            .meter =
                [log](const std::string& driver, const std::string& port, const std::string& state,
                      const std::string& says) {
                    note(log, fmt::format("{} on {}: {}{}{}", driver, port, state, says.empty() ? "" : "; ",
                                          says));
                }};
}

void serve_until_interrupted(BenchServer& server) {
    note_interrupts();
    std::thread serving([&] { server.run(); });
    MachineClock clock;
    constexpr std::chrono::milliseconds one_look{100};
    while (!is_interrupted())
        clock.wait(one_look);
    server.stop();
    serving.join();
}

void run(const ServeWords& words, const Session& session) {
    const ListenAddress address = address_in(words);
    const Rules rules = rules_of(session);
    std::deque<Driver> drivers;
    // A port that cannot be opened yet is a state on the page.
    std::vector<BenchMeter> meters = bench_meters_in_words(session, words.meters, words.ports, drivers);
    open_history(session); // what is wrong with it is said before anybody measures
    const MachineClock clock;
    std::optional<Pairing> pairing;
    if (!address.loopback) pairing.emplace(clock, show_code);
    Broadcast stream;
    const Log log = open_log(session);
    MeterDesk desk(std::move(meters), stream, listener_for(log));
    ExaminationBoard board(stream);
    const auto history = [&session] { return open_history(session); };
    ExaminationDesk examinations(rules, history, desk, board);
    const BenchServices services{.rules = rules,
                                 .open_history = history,
                                 .stream = stream,
                                 .meters = desk,
                                 .board = board,
                                 .examinations = examinations,
                                 .pairing = pairing ? &*pairing : nullptr,
                                 .listener = listener_for(log)};
    BenchServer server(address, services);
    fmt::print("The bench page is at http://{}/ (Ctrl-C ends it)\n", authority_of(server.address()));
    std::fflush(stdout);
    note(log, fmt::format("serving at {}", authority_of(server.address())));
    serve_until_interrupted(server);
}

} // namespace

void add_serve_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<ServeWords>();
    CLI::App* command =
        app.add_subcommand("serve", "Open the bench in a browser on this machine or beside it");
    command
        ->add_option("--listen", words->listen,
                     "ADDRESS:PORT; off this machine each new device needs the code that is printed here")
        ->type_name("ADDRESS");
    command->add_option("--meter", words->meters, "A driver, as dmm-scpi; once for each meter at hand")
        ->type_name("DRIVER")
        ->allow_extra_args(false);
    command
        ->add_option("--port", words->ports,
                     "Its port: a serial device, another terminal device, tcp://HOST:PORT, or replay:FILE")
        ->type_name("PORT")
        ->allow_extra_args(false);
    command->callback([words, &session] { run(*words, session); });
    command->footer("Example:\n  coilward serve --meter dmm-scpi --port tcp://192.168.1.20:5025 "
                    "--meter lcr-fetch-ab --port /dev/ttyUSB0");
}

} // namespace coilward
