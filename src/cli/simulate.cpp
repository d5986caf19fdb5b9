#include "bench/simulated_port.h"
#include "cli/command.h"
#include "cli/input.h"
#include "cli/interrupt.h"
#include "cli/meter_words.h"
#include "demonstration/simulated_coil.h"
#include "diagnosis/faulty_coil.h"
#include "rewind/quantity_words.h"

#include <chrono>
#include <filesystem>
#include <map>
#include <memory>
#include <random>
#include <thread>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <unistd.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;
using std::chrono::steady_clock;

struct SimulateWords {
    std::string meter;
    std::string coil;
    std::string fault = "healthy";
    std::vector<std::string> severities;
    double temperature_c = 20.0;
    std::string probes = "leads";
    std::string measure;
    std::string on = "terminal";
    double noise = 2e-5;
    double scatter = 0.0;
    double garbage = 0.0;
    double unplug_every_s = 0.0;
    std::uint64_t seed = 1;
};

/// Beyond it a bench meter shows over-range.
constexpr double highest_ohm = 2e8;

const CoilModel& model_in_words(const Rules& rules, const std::string& id) {
    if (const CoilModel* model = rules.coil_model(id)) return *model;
    throw CLI::ValidationError("--coil",
                               fmt::format("there is no coil model \"{}\"; coilward models lists them", id));
}

const Fault& fault_in_words(const Rules& rules, const std::string& id) {
    if (const Fault* fault = rules.fault(id)) return *fault;
    std::vector<std::string> ids;
    for (const Fault& fault : rules.faults)
        ids.push_back(fault.id);
    throw CLI::ValidationError(
        "--fault", fmt::format("there is no fault \"{}\"; there are {}", id, fmt::join(ids, ", ")));
}

Severities severities_in_words(const std::vector<std::string>& words) {
    Severities severities;
    for (const std::string& each : words) {
        const std::size_t equals = each.find('=');
        if (equals == std::string::npos || equals == 0)
            throw CLI::ValidationError("--severity", fmt::format("\"{}\": expected NAME=VALUE, as "
                                                                 "shorted_fraction=0.03",
                                                                 each));
        severities[each.substr(0, equals)] = number_in_words("--severity", each.substr(equals + 1), "1");
    }
    return severities;
}

CircuitUnderTest circuit_in_words(const SimulateWords& words, const Rules& rules) {
    const CoilModel& model = model_in_words(rules, words.coil);
    const Fault& fault = fault_in_words(rules, words.fault);
    const Severities severities = severities_in_words(words.severities);
    try {
        return faulty_coil(rules, model, fault, severities, words.temperature_c);
    } catch (const std::invalid_argument& error) {
        throw CLI::ValidationError("--severity", error.what());
    }
}

CoilPort probes_in_words(const std::string& words) {
    if (words == "start-frame") return CoilPort::start_frame;
    if (words == "leads-frame") return CoilPort::leads_frame;
    return words == "finish-frame" ? CoilPort::finish_frame : CoilPort::leads;
}

MeasurementRequest request_in_words(const std::string& words) {
    if (const auto request = request_from_text(words)) return *request;
    throw CLI::ValidationError("--measure",
                               fmt::format("\"{}\": expected a quantity, and where they matter a "
                                           "circuit and a frequency in Hz, as \"inductance "
                                           "series 1000\"",
                                           words));
}

SimulatedPeer peer_in_words(const SimulateWords& words, const Driver& driver,
                            const CircuitUnderTest& circuit) {
    const MeterError error{.gain = {1.0, 0.0}, .noise = words.noise, .highest_ohm = highest_ohm};
    const auto probes = std::make_shared<std::atomic<CoilPort>>(probes_in_words(words.probes));
    try {
        SimulatedMeter meter(driver, coil_seen_by(error, circuit.coil, circuit.fault, probes),
                             {.relative = error.noise, .scatter = words.scatter, .seed = words.seed});
        if (!words.measure.empty()) meter.turn_to(request_in_words(words.measure));
        SimulatedPeer peer = peer_of(std::move(meter));
        return words.garbage > 0.0 ? over_a_bad_line(peer, words.garbage, words.seed) : peer;
    } catch (const std::invalid_argument& refusal) {
        throw CLI::ValidationError("--measure", refusal.what());
    }
}

/// A name that stays when the terminal device behind it goes and comes, as /dev/serial/by-id/ has them.
class StandingName {
public:
    explicit StandingName(fs::path path) : path_(std::move(path)) {}

    ~StandingName() { clear(); }

    StandingName(const StandingName&) = delete;
    StandingName& operator=(const StandingName&) = delete;

    void point_to(const std::string& device) {
        clear();
        fs::create_symlink(device, path_);
    }

    void clear() {
        std::error_code gone;
        fs::remove(path_, gone);
    }

    std::string text() const { return path_.string(); }

private:
    fs::path path_;
};

/// False where the interrupt came first.
bool wait_for(milliseconds time) {
    constexpr milliseconds one_look{20};
    for (const auto until = steady_clock::now() + time; steady_clock::now() < until;) {
        if (is_interrupted()) return false;
        std::this_thread::sleep_for(one_look);
    }
    return !is_interrupted();
}

/// A port that is there, goes and returns under its name.
class PluggedPort {
public:
    PluggedPort(SimulatedPeer peer, bool on_tcp, bool comes_and_goes)
        : peer_(std::move(peer)), on_tcp_(on_tcp), stays_(!comes_and_goes),
          standing_(fs::temp_directory_path() / fmt::format("coilward-meter-{}", ::getpid())) {
        plug();
    }

    void plug() {
        port_ = on_tcp_ ? simulate_on_tcp(peer_, number_) : simulate_on_terminal(peer_);
        if (on_tcp_)
            number_ =
                static_cast<std::uint16_t>(std::stoi(port_->name().substr(port_->name().rfind(':') + 1)));
        else if (!stays_)
            standing_.point_to(port_->name());
    }

    void unplug() {
        standing_.clear();
        port_.reset();
    }

    std::string name() const { return on_tcp_ || stays_ ? port_->name() : standing_.text(); }

private:
    SimulatedPeer peer_;
    bool on_tcp_;
    bool stays_;
    std::uint16_t number_ = 0;
    StandingName standing_;
    std::unique_ptr<SimulatedPort> port_;
};

/// Pulls the plug at random, on average as often as was asked for, and puts it back within half a second.
void pull_now_and_then(PluggedPort& port, double every_s, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> there(0.5 * every_s, 1.5 * every_s);
    std::uniform_int_distribution<int> away_ms(50, 500);
    const auto next = [&] { return milliseconds(static_cast<long>(1000.0 * there(random))); };
    while (wait_for(next())) {
        port.unplug();
        wait_for(milliseconds(away_ms(random)));
        port.plug();
    }
}

void run(const SimulateWords& words, const Session& session) {
    const Rules rules = rules_of(session);
    const Driver driver = driver_in_words(session, words.meter);
    const CircuitUnderTest circuit = circuit_in_words(words, rules);
    note_interrupts();
    const bool comes_and_goes = words.unplug_every_s > 0.0;
    PluggedPort port(peer_in_words(words, driver, circuit), words.on == "tcp", comes_and_goes);
    fmt::print("{}\n", port.name());
    std::fflush(stdout);
    if (comes_and_goes)
        pull_now_and_then(port, words.unplug_every_s, words.seed);
    else
        while (wait_for(std::chrono::hours(1))) {
        }
}

} // namespace

void add_simulate_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<SimulateWords>();
    CLI::App* command = app.add_subcommand(
        "simulate", "Put a simulated meter on a coil behind a port of this machine, until it is interrupted");
    command->add_option("--meter", words->meter, "The driver whose meter is simulated")
        ->type_name("DRIVER")
        ->required();
    command->add_option("--coil", words->coil, "A coil model, in the middle of its ranges")
        ->type_name("MODEL")
        ->required();
    command->add_option("--fault", words->fault, "A fault's id; healthy where none is given")
        ->type_name("FAULT");
    command->add_option("--severity", words->severities, "NAME=VALUE in SI units, as shorted_fraction=0.03")
        ->type_name("NAME=VALUE")
        ->allow_extra_args(false);
    command->add_option("--temperature", words->temperature_c, "The coil's, degrees Celsius")
        ->check(CLI::Range(-40.0, 125.0));
    command->add_option("--probes", words->probes, "Where they are clipped")
        ->check(CLI::IsMember({"leads", "start-frame", "finish-frame", "leads-frame"}));
    command
        ->add_option("--measure", words->measure,
                     "What a meter that is set by hand is set to, as \"inductance series 1000\"")
        ->type_name("QUANTITY");
    command->add_option("--on", words->on, "Behind what")->check(CLI::IsMember({"terminal", "tcp"}));
    command->add_option("--noise", words->noise, "Standard deviation of a reading, as a part of it")
        ->check(CLI::Range(0.0, 1.0));
    command
        ->add_option("--scatter", words->scatter,
                     "Each reading is too high by up to this part, as with an unsteady contact")
        ->check(CLI::Range(0.0, 10.0));
    command->add_option("--garbage", words->garbage, "The share of bytes that are damaged on the way")
        ->check(CLI::Range(0.0, 1.0));
    command->add_option("--unplug-every", words->unplug_every_s, "Seconds between pulls of the plug")
        ->check(CLI::Range(0.0, 86400.0));
    command->add_option("--seed", words->seed, "Of all that is random");
    command->callback([words, &session] { run(*words, session); });
    command->footer("Prints the port, as --port takes it.\n\nExample:\n"
                    "  coilward simulate --meter dmm-scpi --coil six-rod-42 --fault shorted-turns "
                    "--severity shorted_fraction=0.03 --on tcp");
}

} // namespace coilward
