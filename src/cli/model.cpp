#include "cli/input.h"
#include "cli/plan_options.h"
#include "cli/whole_file.h"
#include "rewind/model_words.h"
#include "rewind/quantity_words.h"
#include "rules/coil_model_text.h"
#include "units/engineering.h"

#include <functional>
#include <iostream>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <unistd.h>

namespace coilward {
namespace {

struct NewModelWords {
    std::string id, title, out;
    ModelWords known;
};

/// One thing that can be known, and how it is asked for at a terminal.
struct Question {
    const char* asks;
    std::string* words;
};

std::vector<Question> questions(ModelWords& words) {
    return {
        {"construction, an id that \"coilward models\" lists under pickup types", &words.type},
        {"core that the wire lies on, LENGTH,WIDTH or a diameter, such as 56mm,4.8mm", &words.bobbin.core},
        {"flanges, LENGTH,WIDTH or a diameter", &words.bobbin.flange},
        {"height between the flanges, such as 10.5mm", &words.bobbin.height},
        {"turns, if they are known, such as 7500..8100", &words.turns},
        {"DC resistance of a coil that is taken for sound, such as 6.1k", &words.resistance},
        {"its temperature in degrees Celsius", &words.temperature},
        {"its series inductance at 1 kHz, such as 2.3", &words.inductance}};
}

std::string shown(const ComputedRange& range) {
    return range.range ? engineering_range(range.range->low, range.range->high, range.unit) : "open";
}

/// What changed by an answer; everything where there was nothing before.
void show(const std::vector<ComputedRange>& now, const std::vector<ComputedRange>& before, std::FILE* out) {
    for (std::size_t i = 0; i < now.size(); ++i) {
        const bool same = i < before.size() && shown(now[i]) == shown(before[i]);
        if (same || !now[i].range) continue;
        const bool was = i < before.size() && before[i].range;
        fmt::print(out, "  {:<24} {:<22} by {}{}\n", now[i].quantity, shown(now[i]), now[i].from,
                   was ? ", was " + shown(before[i]) : "");
    }
}

/// Asks at the terminal for what was not said, and shows after each answer what it narrowed. Whole answers
/// only: a bobbin counts once its three lengths are there, a resistance with its temperature.
void ask(NewModelWords& words, const Rules& rules) {
    std::vector<ComputedRange> before;
    const auto tell = [&] {
        const auto now = computed_ranges(known_in_words(words.known, rules));
        show(now, before, stderr);
        before = now;
    };
    for (const Question& question : questions(words.known)) {
        if (!question.words->empty()) continue;
        fmt::print(stderr, "{} (Enter: not known): ", question.asks);
        if (!std::getline(std::cin, *question.words)) break;
        try {
            tell();
        } catch (const BadWords&) { // the rest of it comes with the next question
        }
    }
}

void write(const std::string& text, const std::string& file, const Session& session) {
    if (file.empty()) {
        fmt::print("{}", text);
        return;
    }
    write_whole_file(file, text);
    const auto own = session.own_rules_folder.empty() ? session.rules_folder : session.own_rules_folder;
    fmt::print("{} written; it counts once it lies in {}\n", file, (own / "coils").string());
}

void run(NewModelWords& words, const Session& session) {
    const Rules rules = rules_of(session);
    if (isatty(STDIN_FILENO)) ask(words, rules);
    try {
        show(computed_ranges(known_in_words(words.known, rules)), {}, stderr);
        write(coil_model_text(computed_model(words.known, rules, words.id, words.title)), words.out, session);
    } catch (const NoCoilModel& error) {
        throw CLI::ValidationError("model new", error.what());
    }
}

} // namespace

void add_model_command(CLI::App& app, Session& session) {
    CLI::App* group = app.add_subcommand("model", "Make a coil model for a pickup that none fits");
    group->require_subcommand(1);
    group->footer("Example:\n  coilward model new old-steel-guitar --type strip-single --awg 44");
    auto words = std::make_shared<NewModelWords>();
    CLI::App* command = group->add_subcommand(
        "new", "Compute what a healthy coil measures from its construction, its bobbin and what was read");
    command->add_option("ID", words->id, "Of the new model: small letters, digits and hyphens")->required();
    command->add_option("--title", words->title, "What it is, in a few words");
    command
        ->add_option("--type", words->known.type,
                     "Construction: a pickup type that \"coilward models\" lists")
        ->type_name("TYPE");
    add_bobbin_options(*command, words->known.bobbin);
    add_wire_options(*command, words->known.wire);
    command->add_option("--turns", words->known.turns, "If they are known, such as 7500..8100");
    command->add_option("--dc-resistance", words->known.resistance, "Of a coil that is taken for sound");
    command->add_option("--temperature", words->known.temperature, "At which that was read, degC");
    command->add_option("--inductance", words->known.inductance, "Of it, series at 1 kHz");
    command->add_option("--out", words->out, "File to write; else standard output")->type_name("FILE");
    command->callback([words, &session] { run(*words, session); });
    command->footer("At a terminal it asks for what is not said, and shows what each answer narrows.\n\n"
                    "Example:\n  coilward model new old-steel-guitar --type strip-single --awg 44 \\\n"
                    "    --core 64mm,3mm --flange 72mm,12mm --height 5mm --out old-steel-guitar.toml");
}

} // namespace coilward
