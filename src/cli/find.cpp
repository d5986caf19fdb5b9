#include "bench/find.h"

#include "bench/capture.h"
#include "cli/command.h"
#include "cli/interrupt.h"
#include "cli/meter_words.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct FindWords {
    std::vector<std::string> ports;
    bool ask = false;
    double listen_s = 3.0;
};

std::string ids_of(const std::vector<const Driver*>& drivers) {
    std::vector<std::string> ids;
    for (const Driver* driver : drivers)
        ids.push_back(driver->id);
    return fmt::format("{}", fmt::join(ids, ", "));
}

void print_driver(const Driver& driver) {
    fmt::print("  {}: {} ({})\n", driver.id, driver.title, name(driver.status));
}

void print_found(const std::string& port, const std::vector<const Driver*>& drivers, std::string_view how) {
    fmt::print("{}: {} {}\n", port, drivers.size() == 1 ? drivers.front()->id : "one of several", how);
    for (const Driver* driver : drivers)
        print_driver(*driver);
    if (drivers.size() > 1) fmt::print("  Nothing tells them apart: choose by what the meter is.\n");
    fmt::print("  coilward watch --meter {} --port {}\n", drivers.front()->id, port);
}

/// Why nothing was found, and what to do.
std::string nothing_found(const PortFinding& found, const FindWords& words,
                          const std::vector<Driver>& drivers) {
    if (found.bytes > 0) {
        std::vector<const Driver*> unheard;
        for (const Driver& driver : drivers)
            if (!can_be_heard(driver)) unheard.push_back(&driver);
        return fmt::format("bytes arrive that no driver reads for certain; {} cannot be told by listening: "
                           "where it is one of these, name it with coilward watch --meter",
                           ids_of(unheard));
    }
    if (!words.ask) return "nothing is sent; switch the meter's output on, or add --ask to ask the meter";
    return "nothing is sent and no question is answered; check that the meter is on, its cable and its "
           "speed; meters without an identity question are not asked: name the driver with coilward watch "
           "--meter";
}

/// False where nothing was found.
bool print_finding(const std::string& port, const PortFinding& found, const FindWords& words,
                   const std::vector<Driver>& drivers) {
    if (!found.heard.empty()) {
        print_found(port, found.heard, "by what the meter sends");
        return true;
    }
    if (!found.asked.empty()) {
        print_found(port, found.asked, fmt::format("by the answer \"{}\"", found.answer));
        return true;
    }
    fmt::print(stderr, "coilward: {}: {}\n", port, nothing_found(found, words, drivers));
    return false;
}

void run(const FindWords& words, Session& session) {
    const std::vector<Driver> drivers = drivers_of(session);
    std::vector<Port> ports;
    for (const std::string& port : words.ports)
        ports.push_back(port_in_words(port));
    note_interrupts();
    FindOrder order{.listen = std::chrono::milliseconds(static_cast<long>(words.listen_s * 1000.0)),
                    .ask = words.ask,
                    .stop = is_interrupted,
                    .progress = {}};
    for (std::size_t i = 0; i < ports.size(); ++i) {
        order.progress = [&port = words.ports[i]](const std::string& what) {
            fmt::print(stderr, "coilward: {}: {}\n", port, what);
        };
        try {
            if (!print_finding(words.ports[i], find_meter(ports[i], drivers, order), words, drivers))
                session.exit_code = 1;
        } catch (const BadCapture& error) {
            throw BadInput(error.what());
        } catch (const TransportError& error) {
            fmt::print(stderr, "coilward: {}\n", error.what());
            session.exit_code = 1;
        }
        std::fflush(stdout);
    }
}

} // namespace

void add_find_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<FindWords>();
    CLI::App* command = app.add_subcommand(
        "find", "Find out which driver reads the meter behind a port, by listening and, with --ask, asking");
    command->add_option("--port", words->ports, "A port to listen on, as for coilward watch")
        ->type_name("PORT")
        ->required()
        ->allow_extra_args(false);
    command->add_flag("--ask", words->ask,
                      "Send the drivers' identity questions to these ports where nothing was heard");
    command->add_option("--listen", words->listen_s, "Seconds to listen at each speed")
        ->check(CLI::Range(0.2, 600.0));
    command->callback([words, &session] { run(*words, session); });
    command->footer("Nothing is sent without --ask, and never to a port that was not named.\n\nExample:\n"
                    "  coilward find --port /dev/ttyUSB0 --ask");
}

} // namespace coilward
