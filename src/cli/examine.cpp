#include "guide/examine.h"

#include "bench/clock.h"
#include "cli/history.h"
#include "cli/input.h"
#include "cli/meter_words.h"
#include "cli/terminal_person.h"
#include "report/diagnosis_json.h"
#include "report/verdict_page.h"

#include <algorithm>
#include <deque>
#include <iostream>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <unistd.h>

namespace coilward {
namespace {

struct ExamineWords {
    std::string pickup;
    std::string coil;
    std::vector<std::string> meters;
    std::vector<std::string> ports;
    std::optional<double> temperature_c;
    std::string complaint;
    std::string stage;
    bool rewound = false;
    bool alone = false;
    bool yes = false;
    bool json = false;
};

/// The coil that is meant, with its model known. Throws CLI::ValidationError.
CoilOnBench coil_on_bench(const ExamineWords& words, const Pickup& pickup, const Rules& rules) {
    std::vector<std::string> names;
    for (const PickupCoil& coil : pickup.coils)
        names.push_back(coil.name);
    if (pickup.coils.empty())
        throw CLI::ValidationError(fmt::format("{}: it has no coil model yet; say coilward pickup edit {} "
                                               "--model ID",
                                               pickup.name, pickup.number));
    if (std::ranges::find(names, words.coil) == names.end())
        throw CLI::ValidationError(
            "--coil",
            names.size() == 1 && names.front().empty()
                ? fmt::format("{} has one coil without a name; leave --coil out", pickup.name)
                : fmt::format("{} has the coils {}; say which one", pickup.name, fmt::join(names, ", ")));
    const std::string model = coil_model_of(pickup, words.coil);
    if (!rules.coil_model(model))
        throw CLI::ValidationError(
            fmt::format("{}: there is no coil model \"{}\"; coilward models lists them", pickup.name, model));
    return {.pickup = pickup,
            .coil = words.coil,
            .visit = {.id = random_id(),
                      .pickup = pickup.id,
                      .at = MachineClock().now(),
                      .stage = words.stage,
                      .rewound = words.rewound,
                      .notes = words.complaint},
            .alone = words.alone};
}

/// The meters that the words name. A port that cannot be had is said before anybody moves a probe.
std::vector<BenchMeter> meters_in(const ExamineWords& words, const Session& session,
                                  std::deque<Driver>& drivers) {
    std::vector<BenchMeter> meters = bench_meters_in_words(session, words.meters, words.ports, drivers);
    for (BenchMeter& meter : meters)
        if (!meter.replay) meter.conversation();
    return meters;
}

std::vector<Reading> told_beforehand(const ExamineWords& words) {
    if (!words.temperature_c) return {};
    return {{.quantity = Quantity::temperature, .value = words.temperature_c}};
}

/// Why the work could not be done; empty where it was.
std::string failure(const Examined& examined, const std::vector<BenchMeter>& meters, std::size_t told) {
    if (!examined.lost.empty())
        return fmt::format("{}; {} readings were kept", examined.lost.front(), examined.readings);
    const bool replays = std::ranges::any_of(meters, [](const auto& m) { return m.replay.has_value(); });
    if (replays && examined.readings <= told)
        return fmt::format("{}: no reading of {} is in this capture; check --meter", meters.front().port,
                           meters.front().driver->id);
    return {};
}

void run(const ExamineWords& words, Session& session) {
    const Rules rules = rules_of(session);
    History history = open_history(session);
    const CoilOnBench coil = coil_on_bench(words, pickup_in_words(history, words.pickup), rules);
    std::deque<Driver> drivers;
    std::vector<BenchMeter> meters = meters_in(words, session, drivers);
    std::FILE* talk = words.json ? stderr : stdout;
    TerminalPerson at_keyboard(std::cin, talk);
    AbsentPerson nobody(talk);
    const bool waits = !words.yes && ::isatty(STDIN_FILENO) != 0;
    Person& person = waits ? static_cast<Person&>(at_keyboard) : nobody;
    const MachineClock clock;
    const auto told = told_beforehand(words);
    const Examined examined = examine(
        {.rules = rules, .history = history, .clock = clock, .meters = meters, .person = person}, coil, told);
    if (words.json)
        fmt::print("{}\n", diagnosis_to_json(examined.diagnosis));
    else if (examined.readings > 0)
        fmt::print("\n{}", verdict_page(examined.diagnosis, rules));
    std::fflush(stdout);
    if (const std::string failed = failure(examined, meters, told.size()); !failed.empty())
        throw std::runtime_error(failed);
}

} // namespace

void add_examine_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<ExamineWords>();
    CLI::App* command = app.add_subcommand(
        "examine", "Take a coil's readings in the order that decides soonest, and judge it");
    command->add_option("PICKUP", words->pickup, "Its number, its name, or the beginning of its name")
        ->required();
    command->add_option("--coil", words->coil, "Which coil, of a pickup that has several")->type_name("COIL");
    command->add_option("--meter", words->meters, "A driver, as dmm-scpi; once for each meter at hand")
        ->type_name("DRIVER")
        ->required()
        ->allow_extra_args(false);
    command
        ->add_option("--port", words->ports,
                     "Its port: a serial device, another terminal device, tcp://HOST:PORT, or replay:FILE")
        ->type_name("PORT")
        ->required()
        ->allow_extra_args(false);
    command->add_option("--temperature", words->temperature_c, "The coil's temperature, degrees Celsius")
        ->check(CLI::Range(-40.0, 125.0));
    command->add_option("--complaint", words->complaint, "What its owner complains of");
    command->add_option("--stage", words->stage, "Of the work, as \"as received\" or \"after potting\"");
    command->add_flag("--rewound", words->rewound, "The winding is new since the visit before");
    command->add_flag("--alone", words->alone, "Not beside the other pickups of its owner's instrument");
    command->add_flag("--yes", words->yes, "Wait for nobody: only what is read with the probes on the leads");
    command->add_flag("--json", words->json, "End with the diagnosis document; all else on standard error");
    command->callback([words, &session] { run(*words, session); });
    command->footer("At a terminal Enter means ready, s skips a reading, q stops.\n\nExample:\n"
                    "  coilward examine neck --meter dmm-scpi --port tcp://192.168.1.20:5025 "
                    "--meter lcr-fetch-ab --port /dev/ttyUSB0 --temperature 21.5");
}

} // namespace coilward
