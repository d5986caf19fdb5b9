#include "cli/command.h"
#include "cli/history.h"
#include "cli/input.h"
#include "diagnosis/diagnosis.h"
#include "history/examination_of.h"
#include "reading/examination_json.h"
#include "report/diagnosis_json.h"
#include "report/verdict_page.h"
#include "report/verdict_picture.h"

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
    bool picture = false;
};

/// A diagnosis, and how the readings document called itself, as JSON; empty where it has no id.
struct Answer {
    Diagnosis diagnosis;
    std::string id;
};

/// The id may be any JSON scalar; the examination keeps it as text only.
std::string id_of(const std::string& document) {
    const auto json = nlohmann::json::parse(document, nullptr, false);
    const bool has_one = json.is_object() && json.contains("id") && json["id"].is_primitive();
    return has_one && !json["id"].is_null() ? json["id"].dump() : "";
}

Answer answer_to(const Rules& rules, const std::string& text) {
    return {diagnose(rules, examination_from_json(text)), id_of(text)};
}

Answer answer_to_file(const Rules& rules, const std::string& file) {
    const std::string text = read_input(file);
    try {
        return answer_to(rules, text);
    } catch (const BadDocument& error) {
        throw BadInput(fmt::format("{}: {}", file, error.what()));
    } catch (const CannotDiagnose& error) {
        throw BadInput(fmt::format("{}: {}", file, error.what()));
    }
}

Answer answer_to_pickup(const Rules& rules, const Session& session, const std::string& words) {
    const History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words);
    const auto examination = latest_examination_of(history, pickup);
    if (!examination)
        throw BadInput(fmt::format("{}: nothing was read of it yet; give a readings document with --readings",
                                   pickup.name));
    return {diagnose(rules, *examination), ""};
}

std::string refusal_of_line(const std::string& text, std::size_t line, const std::exception& error) {
    nlohmann::ordered_json refusal{{"line", line}, {"error", error.what()}};
    if (const std::string id = id_of(text); !id.empty()) refusal["id"] = nlohmann::json::parse(id);
    return refusal.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string answer_to_line(const Rules& rules, const std::string& text, std::size_t line) {
    try {
        const Answer answer = answer_to(rules, text);
        return diagnosis_to_json(answer.diagnosis, answer.id);
    } catch (
        const std::exception& error) { // whatever is wrong with one line, the next ones get their answers
        return refusal_of_line(text, line, error);
    }
}

void diagnose_lines(const Rules& rules, std::istream& in) {
    std::string text;
    for (std::size_t line = 1; std::getline(in, text); ++line)
        fmt::print("{}\n", answer_to_line(rules, text, line));
}

void print(const Answer& answer, const Rules& rules, const Words& words) {
    if (words.json)
        fmt::print("{}\n", diagnosis_to_json(answer.diagnosis, answer.id));
    else if (words.picture)
        fmt::print("{}", verdict_picture(answer.diagnosis, rules));
    else
        fmt::print("{}\n", verdict_page(answer.diagnosis, rules));
}

void run(const Words& words, const Session& session) {
    const int forms =
        (words.jsonl ? 1 : 0) + (words.readings_file.empty() ? 0 : 1) + (words.pickup.empty() ? 0 : 1);
    if (forms != 1)
        throw CLI::ValidationError("diagnose",
                                   "give one of --readings FILE, --jsonl, or a pickup of the history");
    const Rules rules = rules_of(session);
    if (words.jsonl) return diagnose_lines(rules, std::cin);
    print(words.pickup.empty() ? answer_to_file(rules, words.readings_file)
                               : answer_to_pickup(rules, session, words.pickup),
          rules, words);
}

} // namespace

void add_diagnose_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<Words>();
    CLI::App* command = app.add_subcommand("diagnose", "Say what the readings of a coil mean");
    command->add_option("--readings", words->readings_file,
                        "A readings document (JSON); - for standard input");
    command->add_flag("--jsonl", words->jsonl, "One readings document a line from standard input");
    command->add_option("PICKUP", words->pickup, "A pickup of the history: its latest visit");
    auto* json = command->add_flag("--json", words->json, "Answer as JSON");
    command->add_flag("--svg", words->picture, "Answer as a picture (SVG)")->excludes(json);
    command->footer("Example:\n  coilward diagnose --readings docs/examples/shorted-turns.json");
    command->callback([words, &session] { run(*words, session); });
}

} // namespace coilward
