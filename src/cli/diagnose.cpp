#include "cli/command.h"
#include "cli/input.h"
#include "diagnosis/diagnosis.h"
#include "reading/examination_json.h"
#include "report/diagnosis_json.h"

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

void diagnose_file(const Rules& rules, const Words& words) {
    const std::string text = read_input(words.readings_file);
    try {
        fmt::print("{}\n", diagnosis_to_json(diagnose_text(rules, text)));
    } catch (const BadDocument& error) {
        throw BadInput(fmt::format("{}: {}", words.readings_file, error.what()));
    } catch (const CannotDiagnose& error) {
        throw BadInput(fmt::format("{}: {}", words.readings_file, error.what()));
    }
}

std::string answer_to_line(const Rules& rules, const std::string& text, std::size_t line) {
    const auto refused = [&](const std::exception& error) {
        return nlohmann::ordered_json{{"line", line}, {"error", error.what()}}.dump(
            -1, ' ', false, nlohmann::json::error_handler_t::replace);
    };
    try {
        return diagnosis_to_json(diagnose_text(rules, text));
    } catch (const BadDocument& error) {
        return refused(error);
    } catch (const CannotDiagnose& error) {
        return refused(error);
    }
}

void diagnose_lines(const Rules& rules, std::istream& in) {
    std::string text;
    for (std::size_t line = 1; std::getline(in, text); ++line)
        fmt::print("{}\n", answer_to_line(rules, text, line));
}

void run(const Words& words, const Session& session) {
    const Rules rules = rules_of(session);
    if (words.jsonl) return diagnose_lines(rules, std::cin);
    diagnose_file(rules, words);
}

} // namespace

void add_diagnose_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<Words>();
    CLI::App* command = app.add_subcommand("diagnose", "Say what the readings of a coil mean");
    command->add_option("--readings", words->readings_file,
                        "A readings document (JSON); - for standard input");
    command->add_flag("--jsonl", words->jsonl, "One readings document a line from standard input");
    command->add_flag("--json", words->json, "Answer as JSON");
    command->callback([words, &session] { run(*words, session); });
}

} // namespace coilward
