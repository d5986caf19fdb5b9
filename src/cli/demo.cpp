#include "bench/clock.h"
#include "cli/history.h"
#include "cli/input.h"
#include "cli/meter_words.h"
#include "cli/terminal_person.h"
#include "demonstration/simulated_bench.h"
#include "guide/examine.h"
#include "history/data_folder.h"
#include "history/pickup_key.h"
#include "report/verdict_page.h"

#include <cstdlib>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::uint64_t seed = 20260302; // the same noise each time

/// Moves the probes of a simulated bench as it is told, and reads off what is true of the pickup.
class SimulatedPerson : public Person {
public:
    SimulatedPerson(SimulatedBench& bench, const InventedPickup& pickup) : bench_(bench), pickup_(pickup) {}

    Reply place(const Instruction& instruction) override {
        // No steel moves here, and nobody warms a coil: of the kick the person tells.
        if (instruction.question.quantity == Quantity::polarity || instruction.question.handling)
            return Reply::skip;
        fmt::print("{}", instruction_page(instruction));
        switch (instruction.question.between) {
        case Between::leads:
            bench_.move_probes(CoilPort::leads);
            return Reply::ready;
        case Between::start_frame:
            bench_.move_probes(CoilPort::start_frame);
            return Reply::ready;
        case Between::finish_frame:
            bench_.move_probes(CoilPort::finish_frame);
            return Reply::ready;
        case Between::leads_frame:
            bench_.move_probes(CoilPort::leads_frame);
            return Reply::ready;
        default:
            return Reply::skip; // these coils have no shield
        }
    }

    Told tell(const Instruction& instruction) override {
        fmt::print("{}", instruction_page(instruction));
        Reading reading = instruction.question;
        if (reading.quantity == Quantity::polarity)
            reading.polarity = pickup_.polarity;
        else if (reading.quantity == Quantity::magnet_pole)
            reading.polarity = Polarity::as_expected;
        else
            reading.value = pickup_.coil.temperature_c;
        return {Reply::ready, reading};
    }

    Reply mend(const std::string& trouble) override {
        fmt::print("  {}\n", trouble);
        return Reply::stop;
    }

    void hear(const std::string& line) override { fmt::print("  {}\n", line); }

private:
    SimulatedBench& bench_;
    const InventedPickup& pickup_;
};

/// The pickup of an earlier demonstration, or a new one.
Pickup kept_pickup(History& history, const InventedPickup& invented, Moment now) {
    for (const Pickup& pickup : history.pickups_with_slug(slug_of(invented.name)))
        if (pickup.name == invented.name) return pickup;
    return history.add_pickup({.id = random_id(),
                               .added_at = now,
                               .name = invented.name,
                               .owner = "nobody",
                               .instrument = invented.instrument,
                               .pickup_type = {},
                               .coils = {{"", invented.coil_model}},
                               .notes = "invented for the demonstration"});
}

void examine_invented(const InventedPickup& invented, const Rules& rules, const std::vector<Driver>& drivers,
                      History& history) {
    const MachineClock clock;
    const Pickup pickup = kept_pickup(history, invented, clock.now());
    fmt::print("\n══ {} ({})\n   Complaint: {}\n", invented.name, invented.instrument, invented.complaint);
    SimulatedBench simulated(drivers, invented, seed);
    SimulatedPerson person(simulated, invented);
    auto meters = simulated.meters();
    const CoilOnBench coil{.pickup = pickup,
                           .coil = {},
                           .visit = {.id = random_id(),
                                     .pickup = pickup.id,
                                     .at = clock.now(),
                                     .stage = invented.stage,
                                     .rewound = invented.rewound,
                                     .notes = invented.complaint}};
    const Examined examined = examine(
        {.rules = rules, .history = history, .clock = clock, .meters = meters, .person = person}, coil, {});
    fmt::print("\n{}", verdict_page(examined.diagnosis, rules));
    if (!examined.lost.empty()) throw std::runtime_error(examined.lost.front());
}

/// The demonstration's own folder, so that no invented pickup comes among a person's real ones unasked.
std::filesystem::path data_folder(const Session& session) {
    if (!session.data_folder.empty()) return session.data_folder;
    return default_data_folder(std::getenv("XDG_DATA_HOME"), std::getenv("HOME")) / "demonstration";
}

void run_demo(const Session& session) {
    const Rules rules = rules_of(session);
    const auto drivers = drivers_of(session);
    const auto folder = data_folder(session);
    History history(folder);
    fmt::print(
        "Three invented pickups on a bench of simulated meters. Pickups, owners and readings are made up;\n"
        "what examines and judges them is what examines and judges real ones.\n");
    const auto pickups = invented_pickups();
    for (const InventedPickup& pickup : pickups)
        examine_invented(pickup, rules, drivers, history);
    fmt::print("\nAll of it is now in the history of this demonstration. To look at it:\n");
    for (const InventedPickup& pickup : pickups)
        fmt::print("  coilward history {} --data {}\n", slug_of(pickup.name), folder.string());
}

} // namespace

void add_demo_command(CLI::App& app, Session& session) {
    CLI::App* command = app.add_subcommand(
        "demo", "Examine three invented pickups on simulated meters; keeps them in a history of its own");
    command->callback([&session] { run_demo(session); });
    command->footer("Example:\n  coilward demo");
}

} // namespace coilward
