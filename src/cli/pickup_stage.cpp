#include "bench/clock.h"
#include "cli/history.h"

#include <memory>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct PickupStageWords {
    std::string pickup, stage, note;
};

/// The steps of the work that a bench tells apart.
const std::vector<std::string> stages{"received", "opened", "rewound", "potted", "returned", "other"};

void run(const PickupStageWords& words, const Session& session) {
    History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words.pickup);
    history.begin_visit({.id = random_id(),
                         .pickup = pickup.id,
                         .at = MachineClock().now(),
                         .stage = words.stage,
                         .rewound = words.stage == "rewound",
                         .notes = words.note});
    fmt::print("Pickup {}: {}\n", pickup.number, words.stage);
}

} // namespace

void add_stage_command(CLI::App& pickup, Session& session) {
    auto words = std::make_shared<PickupStageWords>();
    CLI::App* command =
        pickup.add_subcommand("stage", "Note a step of the work on a pickup, without readings");
    command->add_option("PICKUP", words->pickup, "Its number, its name, or the beginning of its name")
        ->required();
    command->add_option("STAGE", words->stage, "received, opened, rewound, potted, returned or other")
        ->required()
        ->check(CLI::IsMember(stages));
    command->add_option("--note", words->note, "Anything worth knowing");
    command->callback([words, &session] { run(*words, session); });
    command->footer("rewound ends what earlier readings say of the winding.\n\nExample:\n"
                    "  coilward pickup stage neck potted --note \"wax at 62 °C, 15 minutes\"");
}

} // namespace coilward
