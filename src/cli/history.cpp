#include "cli/history.h"

#include "history/data_folder.h"
#include "history/history_json.h"
#include "history/history_page.h"
#include "history/pickup_key.h"

#include <cstdlib>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct HistoryWords {
    std::string pickup;
    bool json = false;
    bool ids = false;
};

void run(const HistoryWords& words, const Session& session) {
    const History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words.pickup);
    if (words.json)
        fmt::print("{}\n", history_to_json(history, pickup));
    else
        fmt::print("{}", history_page(history, pickup, words.ids));
}

} // namespace

History open_history(const Session& session) {
    return History(session.data_folder.empty()
                       ? default_data_folder(std::getenv("XDG_DATA_HOME"), std::getenv("HOME")).string()
                       : session.data_folder.string());
}

Pickup pickup_in_words(const History& history, const std::string& words) {
    try {
        return pickup_named(history, words);
    } catch (const BadPickupKey& error) {
        throw CLI::ValidationError(error.what());
    }
}

void add_history_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<HistoryWords>();
    CLI::App* command =
        app.add_subcommand("history", "Show a pickup's visits with their readings and verdicts");
    command->add_option("PICKUP", words->pickup, "Its number, its name, or the beginning of its name");
    command->add_flag("--json", words->json, "As one JSON document");
    command->add_flag("--ids", words->ids,
                      "With the beginning of each reading's id, by which correct names it");
    command->require_subcommand(0, 1);
    command->callback([words, command, &session] {
        if (!command->get_subcommands().empty()) return;
        if (words->pickup.empty())
            throw CLI::ValidationError("PICKUP", "say which; coilward pickup list shows them");
        run(*words, session);
    });
    command->footer("Example:\n  coilward history bridge-red-guitar");
    add_move_command(*command);
    add_correct_command(*command, session);
}

} // namespace coilward
