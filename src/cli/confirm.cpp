#include "cli/command.h"
#include "cli/history.h"
#include "cli/input.h"
#include "report/confirmation_page.h"
#include "rewind/confirmation_words.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct ConfirmWords {
    std::string pickup;
    ConfirmationWords rule;
    RecordPeople people{.program = "coilward"};
    bool json = false;
    bool html = false;
};

void run(const ConfirmWords& words, const Session& session) {
    const History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words.pickup);
    if (history.visits_of(pickup.id).empty())
        throw BadInput(fmt::format("{}: nothing was read of it yet; coilward examine {} reads it",
                                   pickup.name, pickup.number));
    const auto confirmation = confirm(words.rule, history, pickup, rules_of(session));
    if (words.json)
        fmt::print("{}\n", confirmation_to_json(confirmation, words.people));
    else
        fmt::print("{}", words.html ? confirmation_record(confirmation, words.people)
                                    : confirmation_page(confirmation, words.people));
}

} // namespace

void add_confirm_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<ConfirmWords>();
    CLI::App* command =
        app.add_subcommand("confirm", "Confirm a rewind: its latest visit against its limits");
    command->add_option("PICKUP", words->pickup, "Its number, its name, or the beginning of its name")
        ->required();
    command->add_option("--coil", words->rule.coil, "Which coil, where it has several")->type_name("COIL");
    command
        ->add_option("--limit", words->rule.limits,
                     "Of an order, at 20 °C: QUANTITY=LOW..HIGH or QUANTITY@FREQUENCY=LOW..HIGH")
        ->type_name("LIMIT")
        ->take_all();
    command
        ->add_option(
            "--as-it-was", words->rule.as_it_was,
            "Within so many per cent of what it measured when it was last sound, in place of the model")
        ->type_name("PERCENT");
    command->add_option("--turns", words->rule.turns, "What the counter said");
    command->add_option("--temperature", words->rule.temperature,
                        "Of the coil, °C, as 21.5±0.5, where the visit has none");
    command->add_option("--least-insulation", words->rule.least_insulation, "From the coil to the frame")
        ->capture_default_str();
    command->add_option("--conformance", words->rule.probability, "Probability that guards each limit")
        ->check(CLI::Range(0.5, 0.9999))
        ->capture_default_str();
    command->add_option("--tested-by", words->people.tested_by, "Name on the record");
    command->add_option("--remarks", words->people.remarks, "Remarks on the record");
    auto* json = command->add_flag("--json", words->json, "As one JSON document");
    command->add_flag("--html", words->html, "As a page that prints on one sheet")->excludes(json);
    command->footer("Example:\n  coilward confirm neck --turns 7950 --limit dc_resistance=5.9k..6.4k --html "
                    "> record.html");
    command->callback([words, &session] { run(*words, session); });
}

} // namespace coilward
