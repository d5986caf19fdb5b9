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
};

void run(const HistoryWords& words, const Session& session) {
    const History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words.pickup);
    if (words.json)
        fmt::print("{}\n", history_to_json(history, pickup));
    else
        fmt::print("{}", history_page(history, pickup));
}

} // namespace

History open_history(const Session& session) {
    return History(session.data_folder.empty()
                       ? default_data_folder(std::getenv("XDG_DATA_HOME"), std::getenv("HOME"))
                       : session.data_folder);
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
    command->add_option("PICKUP", words->pickup, "Its number, its name, or the beginning of its name")
        ->required();
    command->add_flag("--json", words->json, "As one JSON document");
    command->callback([words, &session] { run(*words, session); });
    command->footer("Example:\n  coilward history bridge-red-guitar");
}

} // namespace coilward
