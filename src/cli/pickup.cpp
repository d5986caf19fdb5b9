#include "bench/clock.h"
#include "cli/history.h"
#include "cli/input.h"
#include "cli/pickup_words.h"
#include "history/history_json.h"
#include "history/history_page.h"
#include "history/pickup_key.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct AddWords {
    PickupWords pickup;
    bool json = false;
};

struct ListWords {
    std::string containing;
    bool json = false;
};

struct ShowWords {
    std::string pickup;
    bool json = false;
};

struct EditWords {
    std::string pickup;
    PickupWords changed;
};

/// Puts the words into the pickup, as far as name and rules allow.
void put(const PickupWords& words, const Session& session, Pickup& pickup) {
    if (words.name && slug_of(*words.name).empty())
        throw CLI::ValidationError(
            "--name", fmt::format("\"{}\" has no letter or digit by which to ask for it", *words.name));
    apply(words, pickup);
    if (names_kind(words)) require_known_kind(rules_of(session), pickup);
}

void add(const AddWords& words, const Session& session) {
    Pickup pickup;
    pickup.id = random_id();
    pickup.added_at = MachineClock().now();
    put(words.pickup, session, pickup);
    pickup = open_history(session).add_pickup(pickup);
    if (words.json)
        fmt::print("{}\n", pickup_to_json(pickup, {}));
    else
        fmt::print("Pickup {}: {}\n", pickup.number, pickup.name);
}

void list(const ListWords& words, const Session& session) {
    const auto pickups = open_history(session).pickups(words.containing);
    if (words.json)
        fmt::print("{}\n", pickups_to_json(pickups));
    else if (!pickups.empty())
        fmt::print("{}", pickup_list_page(pickups));
    else if (words.containing.empty())
        fmt::print("No pickups yet; coilward pickup add --name NAME keeps the first.\n");
    else
        fmt::print("No pickup has \"{}\" in its name, owner, instrument, type, coils or notes.\n",
                   words.containing);
}

void show(const ShowWords& words, const Session& session) {
    const History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words.pickup);
    const auto changes = history.changes_of(pickup.id);
    if (words.json)
        fmt::print("{}\n", pickup_to_json(pickup, changes, history.attachments_of(pickup.id)));
    else
        fmt::print("{}", pickup_page(pickup, changes, history.visits_of(pickup.id),
                                     history.attachments_of(pickup.id)));
}

void edit(const EditWords& words, const Session& session) {
    if (says_nothing(words.changed))
        throw CLI::ValidationError("nothing to change; say for example --owner NAME");
    History history = open_history(session);
    Pickup pickup = pickup_in_words(history, words.pickup);
    put(words.changed, session, pickup);
    const auto count = history.edit_pickup(pickup, random_id(), MachineClock().now());
    fmt::print("Pickup {}: {} {} changed\n", pickup.number, count, count == 1 ? "value" : "values");
}

void add_add_command(CLI::App& parent, Session& session) {
    auto words = std::make_shared<AddWords>();
    CLI::App* command = parent.add_subcommand("add", "Keep a new pickup");
    command->add_option("--name", words->pickup.name, "What is written on its label")->required();
    add_pickup_options(*command, words->pickup);
    command->add_flag("--json", words->json, "Answer as one JSON document");
    command->callback([words, &session] { add(*words, session); });
    command->footer(
        "Example:\n  coilward pickup add --name \"Neck, red guitar\" --model six-rod-42 --owner \"A. "
        "Nonymous\"");
}

void add_list_command(CLI::App& parent, Session& session) {
    auto words = std::make_shared<ListWords>();
    CLI::App* command = parent.add_subcommand("list", "List the pickups");
    command->add_option("--find", words->containing,
                        "Only those that have this text in anything known of them");
    command->add_flag("--json", words->json, "As one JSON document");
    command->callback([words, &session] { list(*words, session); });
    command->footer("Example:\n  coilward pickup list --find \"red guitar\"");
}

void add_show_command(CLI::App& parent, Session& session) {
    auto words = std::make_shared<ShowWords>();
    CLI::App* command = parent.add_subcommand("show", "Show a pickup and what was changed in it");
    command->add_option("PICKUP", words->pickup, "Its number, its name, or the beginning of its name")
        ->required();
    command->add_flag("--json", words->json, "As one JSON document");
    command->callback([words, &session] { show(*words, session); });
    command->footer("Example:\n  coilward pickup show 3");
}

void add_edit_command(CLI::App& parent, Session& session) {
    auto words = std::make_shared<EditWords>();
    CLI::App* command =
        parent.add_subcommand("edit", "Change what is known of a pickup; the former values are kept");
    command->add_option("PICKUP", words->pickup, "Its number, its name, or the beginning of its name")
        ->required();
    command->add_option("--name", words->changed.name, "What is written on its label");
    add_pickup_options(*command, words->changed);
    command->callback([words, &session] { edit(*words, session); });
    command->footer("Example:\n  coilward pickup edit 3 --owner \"B. Nonymous\"");
}

} // namespace

void add_pickup_command(CLI::App& app, Session& session) {
    CLI::App* command = app.add_subcommand("pickup", "Keep, list, show and edit pickups");
    command->require_subcommand(1);
    add_add_command(*command, session);
    add_list_command(*command, session);
    add_show_command(*command, session);
    add_edit_command(*command, session);
    add_attachment_commands(*command, session);
    add_stage_command(*command, session);
    command->footer("Example:\n  coilward pickup add --name \"Neck, red guitar\" --model six-rod-42");
}

} // namespace coilward
