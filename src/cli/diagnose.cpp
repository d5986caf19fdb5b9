#include "cli/command.h"
#include "cli/diagnose_lines.h"
#include "cli/diagnosis_answer.h"
#include "cli/history.h"
#include "cli/input.h"
#include "guide/kin_notes.h"
#include "history/examination_of.h"
#include "reading/examination_json.h"
#include "report/verdict_picture.h"

#include <algorithm>
#include <iostream>
#include <iterator>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct DiagnoseWords {
    std::string readings_file;
    std::string pickup;
    std::vector<std::string> twins;
    std::vector<std::string> of_its_set;
    bool alone = false;
    bool jsonl = false;
    bool json = false;
    bool picture = false;
};

DiagnosisAnswer answer_to_file(const Rules& rules, const std::string& file) {
    const std::string text = read_input(file, "a readings document");
    try {
        return answer_to_document(rules, text);
    } catch (const BadDocument& error) {
        throw BadInput(fmt::format("{}: {}", file, error.what()));
    } catch (const CannotDiagnose& error) {
        throw BadInput(fmt::format("{}: {}", file, error.what()));
    }
}

/// Adds the sound coils of the pickups that are said to be kin, each of which may be named once.
void add_named(std::vector<Kin>& all, const History& history, const Pickup& examined,
               const std::vector<std::string>& others, Kinship as) {
    const char* option = as == Kinship::twin ? "--twin" : "--set";
    for (const std::string& words : others) {
        const Pickup other = pickup_in_words(history, words);
        if (other.id == examined.id)
            throw CLI::ValidationError(
                option,
                fmt::format("{} is the pickup itself; its own past counts without a word", other.name));
        if (std::ranges::count(all, other.number, &Kin::number) > 0)
            throw CLI::ValidationError(
                option,
                fmt::format("{} is named twice; name it once, as its twin or of its set", other.name));
        const auto kin = kin_of(history, other, as, examined);
        if (kin.empty())
            throw BadInput(fmt::format("{}: no coil of it that {} has too was ever judged sound, so nothing "
                                       "can be held beside it; examine it first",
                                       other.name, examined.name));
        std::ranges::copy(kin, std::back_inserter(all));
    }
}

/// What is named, and what the history takes for its set by itself.
std::vector<Kin> kin_in(const DiagnoseWords& words, const History& history, const Pickup& examined,
                        const Visit& visit) {
    std::vector<Kin> named;
    add_named(named, history, examined, words.twins, Kinship::twin);
    add_named(named, history, examined, words.of_its_set, Kinship::set);
    if (words.alone) return named;
    std::vector<Kin> all = named;
    std::ranges::copy_if(
        kin_by_instrument(history, examined, visit), std::back_inserter(all),
        [&](const Kin& kin) { return std::ranges::count(named, kin.number, &Kin::number) == 0; });
    return all;
}

DiagnosisAnswer answer_to_pickup(const Rules& rules, const Session& session, const DiagnoseWords& words) {
    const History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words.pickup);
    const auto visits = history.visits_of(pickup.id);
    if (visits.empty())
        throw BadInput(fmt::format("{}: nothing was read of it yet; give a readings document with --readings",
                                   pickup.name));
    Examination examination = examination_of(history, pickup, visits.back());
    const auto kin = kin_in(words, history, pickup, visits.back());
    hold_beside(examination, kin);
    DiagnosisAnswer answer = answer_to(rules, examination);
    std::visit([&](auto& diagnosis) { note_kin(diagnosis, kin); }, answer.diagnosis);
    return answer;
}

std::string picture_of(const DiagnosisAnswer& answer, const Rules& rules) {
    return std::visit([&](const auto& diagnosis) { return verdict_picture(diagnosis, rules); },
                      answer.diagnosis);
}

void print(const DiagnosisAnswer& answer, const Rules& rules, const DiagnoseWords& words) {
    if (words.json)
        fmt::print("{}\n", answer_in_json(answer));
    else if (words.picture)
        fmt::print("{}", picture_of(answer, rules));
    else
        fmt::print("{}\n", answer_as_page(answer, rules));
}

void run(const DiagnoseWords& words, const Session& session) {
    const int forms =
        (words.jsonl ? 1 : 0) + (words.readings_file.empty() ? 0 : 1) + (words.pickup.empty() ? 0 : 1);
    if (forms != 1)
        throw CLI::ValidationError("diagnose",
                                   "give one of --readings FILE, --jsonl, or a pickup of the history");
    if (words.pickup.empty() && (words.alone || !words.twins.empty() || !words.of_its_set.empty()))
        throw CLI::ValidationError("diagnose", "--twin, --set and --alone go with a pickup of the history; a "
                                               "readings document says it itself, in \"alike\"");
    const Rules rules = rules_of(session);
    if (words.jsonl) {
        std::ios::sync_with_stdio(false); // so that std::cin knows what has arrived
        return diagnose_lines(rules, std::cin, std::cout);
    }
    print(words.pickup.empty() ? answer_to_file(rules, words.readings_file)
                               : answer_to_pickup(rules, session, words),
          rules, words);
}

} // namespace

void add_diagnose_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<DiagnoseWords>();
    CLI::App* command = app.add_subcommand("diagnose", "Say what the readings of a coil mean");
    command
        ->add_option("--readings", words->readings_file, "A readings document (JSON); - for standard input")
        ->type_name("FILE");
    command->add_flag("--jsonl", words->jsonl, "One readings document a line from standard input");
    command->add_option("PICKUP", words->pickup, "A pickup of the history: its latest visit");
    command->add_option("--twin", words->twins, "Beside its twin, another pickup of the history")
        ->type_name("OTHER")
        ->allow_extra_args(false);
    command->add_option("--set", words->of_its_set, "Beside a pickup of its set")
        ->type_name("OTHER")
        ->allow_extra_args(false);
    command->add_flag("--alone", words->alone,
                      "Not beside the other pickups of its owner's instrument, only beside those named here");
    auto* json = command->add_flag("--json", words->json, "Answer as JSON");
    command->add_flag("--svg", words->picture, "Answer as a picture (SVG)")->excludes(json);
    command->footer("Example:\n  coilward diagnose --readings docs/examples/shorted-turns.json");
    command->callback([words, &session] { run(*words, session); });
}

} // namespace coilward
