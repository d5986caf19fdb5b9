#include "cli/command.h"
#include "cli/history.h"
#include "cli/input.h"
#include "diagnosis/diagnosis.h"
#include "reading/examination_json.h"
#include "history/examination_of.h"
#include "report/diagnosis_json.h"
#include "report/verdict_page.h"

#include <iostream>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

struct Words {
    std::string readings_file;
    std::string pickup;
    bool jsonl = false;
    bool json = false;
};

Diagnosis diagnose_text(const Rules& rules, const std::string& text) {
    return diagnose(rules, examination_from_json(text));
}

Diagnosis diagnose_file(const Rules& rules, const std::string& file) {
    const std::string text = read_input(file);
    try {
        return diagnose_text(rules, text);
    } catch (const BadDocument& error) {
        throw BadInput(fmt::format("{}: {}", file, error.what()));
    } catch (const CannotDiagnose& error) {
        throw BadInput(fmt::format("{}: {}", file, error.what()));
    }
}

Diagnosis diagnose_pickup(const Rules& rules, const Session& session, const std::string& words) {
    const History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words);
    const auto examination = latest_examination_of(history, pickup);
    if (!examination)
        throw BadInput(fmt::format("{}: nothing was read of it yet; give a readings document with --readings",
                                   pickup.name));
    return diagnose(rules, *examination);
}

std::string answer_to_line(const Rules& rules, const std::string& text, std::size_t line) {
    const auto refused = [&](const std::exception& error) {
        return nlohmann::ordered_json{{"line", line}, {"error", error.what()}}.dump(
            -1, ' ', false, nlohmann::json::error_handler_t::replace);
    };
    try {
        return diagnosis_to_json(diagnose_text(rules, text));
    } catch (const std::exception& error) { // whatever is wrong with one line, the next ones get their answers
        return refused(error);
    }
}

void diagnose_lines(const Rules& rules, std::istream& in) {
    std::string text;
    for (std::size_t line = 1; std::getline(in, text); ++line)
        fmt::print("{}\n", answer_to_line(rules, text, line));
}

void print(const Diagnosis& diagnosis, const Rules& rules, bool as_json) {
    fmt::print("{}\n", as_json ? diagnosis_to_json(diagnosis) : verdict_page(diagnosis, rules));
}

void run(const Words& words, const Session& session) {
    const int forms = (words.jsonl ? 1 : 0) + (words.readings_file.empty() ? 0 : 1) + (words.pickup.empty() ? 0 : 1);
    if (forms != 1)
        throw CLI::ValidationError("diagnose", "give one of --readings FILE, --jsonl, or a pickup of the history");
    const Rules rules = rules_of(session);
    if (words.jsonl) return diagnose_lines(rules, std::cin);
    print(words.pickup.empty() ? diagnose_file(rules, words.readings_file)
                               : diagnose_pickup(rules, session, words.pickup),
          rules, words.json);
}

} // namespace

void add_diagnose_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<Words>();
    CLI::App* command = app.add_subcommand("diagnose", "Say what the readings of a coil mean");
    command->add_option("--readings", words->readings_file,
                        "A readings document (JSON); - for standard input");
    command->add_flag("--jsonl", words->jsonl, "One readings document a line from standard input");
    command->add_option("PICKUP", words->pickup, "A pickup of the history: its latest visit");
    command->add_flag("--json", words->json, "Answer as JSON");
    command->footer("Example:\n  coilward diagnose --readings docs/examples/shorted-turns.json");
    command->callback([words, &session] { run(*words, session); });
}

} // namespace coilward
