#include "bench/clock.h"
#include "cli/history.h"
#include "history/correction.h"
#include "history/history_page.h"
#include "rewind/quantity_words.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct HistoryCorrectWords {
    std::string pickup, reading, value, uncertainty, coil, why;
};

/// The one reading whose id begins with the words, of any visit of the pickup. Throws CLI::ValidationError.
StoredReading reading_in_words(const History& history, const Pickup& pickup, const std::string& words) {
    std::vector<StoredReading> found;
    for (const Visit& visit : history.visits_of(pickup.id))
        std::ranges::copy_if(
            history.readings_of(visit.id), std::back_inserter(found),
            [&](const StoredReading& stored) { return text_of(stored.id).starts_with(words); });
    if (words.size() < 4 || found.size() != 1)
        throw CLI::ValidationError(
            "READING",
            fmt::format("\"{}\" begins the id of {} readings of {}; coilward history {} --ids shows them",
                        words, words.size() < 4 ? "too many" : std::to_string(found.size()), pickup.name,
                        pickup.number));
    return found.front();
}

StoredReading corrected(const StoredReading& wrong, const HistoryCorrectWords& words) {
    const auto unit_name = unit(wrong.reading.quantity);
    Correction correction{.why = words.why};
    if (!words.value.empty())
        correction.value = unit_name.empty() ? 0.0 : number_in_words("--value", words.value, unit_name);
    if (!words.uncertainty.empty())
        correction.standard_uncertainty = positive_in_words("--uncertainty", words.uncertainty, unit_name);
    if (!words.coil.empty()) correction.coil = words.coil;
    try {
        return correction_of(wrong, correction, MachineClock().now());
    } catch (const NoCorrection& error) {
        throw CLI::ValidationError(error.what());
    }
}

void run(const HistoryCorrectWords& words, const Session& session) {
    History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words.pickup);
    const StoredReading wrong = reading_in_words(history, pickup, words.reading);
    const StoredReading right = corrected(wrong, words);
    history.append_reading(right);
    fmt::print("{}: {} in place of {}, which stays in the history\n", describe(right.reading),
               answer_in_words(right.reading), answer_in_words(wrong.reading));
}

} // namespace

void add_correct_command(CLI::App& history, Session& session) {
    auto words = std::make_shared<HistoryCorrectWords>();
    CLI::App* command =
        history.add_subcommand("correct", "Put another reading in the place of a wrong one; both are kept");
    command->add_option("PICKUP", words->pickup, "Its number, its name, or the beginning of its name")
        ->required();
    command
        ->add_option("READING", words->reading,
                     "The beginning of its id, as coilward history PICKUP --ids shows")
        ->required();
    command->add_option("--value", words->value, "What it should be, such as 6.12k");
    command->add_option("--uncertainty", words->uncertainty, "Standard uncertainty");
    command->add_option("--coil", words->coil, "Of which coil it really was")->type_name("COIL");
    command->add_option("--why", words->why, "Why it was wrong")->required();
    command->callback([words, &session] { run(*words, session); });
    command->footer(
        "Example:\n  coilward history correct neck 3f2a --value 6.12k --why \"misread the range\"");
}

} // namespace coilward
