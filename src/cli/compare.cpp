#include "cli/command.h"
#include "cli/history.h"
#include "cli/input.h"
#include "report/comparison_page.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct CompareWords {
    std::vector<std::string> pickups;
    std::vector<std::string> coils;
    ComparisonRule rule;
    bool json = false;
};

/// The coils that are asked for, or the only one.
std::vector<std::string> coils_of(const Pickup& pickup, const CompareWords& words) {
    std::vector<std::string> names;
    for (const PickupCoil& coil : pickup.coils)
        if (words.coils.empty() || std::ranges::count(words.coils, coil.name) > 0) names.push_back(coil.name);
    if (pickup.coils.empty() && words.coils.empty()) names.emplace_back();
    if (names.empty())
        throw CLI::ValidationError("--coil",
                                   fmt::format("{} has no coil {}", pickup.name, words.coils.front()));
    return names;
}

std::vector<Visit> visits_with_something(const History& history, const Pickup& pickup) {
    auto visits = history.visits_of(pickup.id);
    std::erase_if(visits, [&](const Visit& visit) { return history.readings_of(visit.id).empty(); });
    if (visits.empty())
        throw BadInput(fmt::format("{}: nothing was read of it yet; coilward examine {} reads it",
                                   pickup.name, pickup.number));
    return visits;
}

/// One pickup: its coils against each other where it has several and both visits are not asked for, else
/// before against after: the last visit against the one before it.
std::vector<ComparedCoil> of_one_pickup(const History& history, const Pickup& pickup,
                                        const CompareWords& words) {
    const auto visits = visits_with_something(history, pickup);
    const auto coils = coils_of(pickup, words);
    std::vector<ComparedCoil> compared;
    if (coils.size() > 1) {
        for (const std::string& coil : coils)
            compared.push_back(compared_coil(history, pickup, coil, visits.back()));
        return compared;
    }
    if (visits.size() < 2)
        throw BadInput(fmt::format(
            "{}: it was read on one visit only; a comparison of before and after needs two", pickup.name));
    return {compared_coil(history, pickup, coils.front(), visits[visits.size() - 2]),
            compared_coil(history, pickup, coils.front(), visits.back())};
}

std::vector<ComparedCoil> coils_in(const History& history, const CompareWords& words) {
    if (words.pickups.size() == 1)
        return of_one_pickup(history, pickup_in_words(history, words.pickups.front()), words);
    std::vector<ComparedCoil> compared;
    for (const std::string& name : words.pickups) {
        const Pickup pickup = pickup_in_words(history, name);
        const Visit visit = visits_with_something(history, pickup).back();
        for (const std::string& coil : coils_of(pickup, words))
            compared.push_back(compared_coil(history, pickup, coil, visit));
    }
    return compared;
}

void run(const CompareWords& words, const Session& session) {
    const History history = open_history(session);
    ComparisonRule rule = words.rule;
    rule.bench = rules_of(session).bench_readings;
    const CoilComparison comparison = compare(coils_in(history, words), rule);
    if (words.json)
        fmt::print("{}\n", comparison_to_json(comparison));
    else
        fmt::print("{}", comparison_page(comparison));
}

} // namespace

void add_compare_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<CompareWords>();
    CLI::App* command = app.add_subcommand(
        "compare", "Compare coils: of a set, of a hum-cancelling pair, or one before its rewind and after");
    command
        ->add_option(
            "PICKUP", words->pickups,
            "One: its coils, or its last two visits where it has one coil. Several: their last visits")
        ->required();
    command->add_option("--coil", words->coils, "Only this coil of each")
        ->type_name("COIL")
        ->take_all()
        ->allow_extra_args(false);
    command->add_flag("--pair", words->rule.hum_cancelling_pair,
                      "The first two are to cancel hum: say how well they can");
    command
        ->add_option("--confidence", words->rule.confidence,
                     "That coils which are alike are called so, for all differences together")
        ->check(CLI::Range(0.5, 0.9999))
        ->capture_default_str();
    command
        ->add_option("--same-meter-correlation", words->rule.same_meter_correlation,
                     "Of two readings of one meter, from 0 (nothing is claimed) to 1")
        ->check(CLI::Range(0.0, 0.999))
        ->capture_default_str();
    command->add_flag("--json", words->json, "As one JSON document");
    command->callback([words, &session] { run(*words, session); });
    command->footer("Example:\n  coilward compare bridge --pair\n  coilward compare neck middle bridge\n"
                    "  coilward compare neck                # before its rewind and after");
}

} // namespace coilward
