#include "cli/input.h"
#include "cli/plan_words.h"
#include "cli/quantity_words.h"
#include "cli/whole_file.h"
#include "rewind/computed_model.h"
#include "rewind/temperature.h"
#include "rules/coil_model_text.h"
#include "units/engineering.h"
#include "wire/copper.h"

#include <functional>
#include <iostream>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <unistd.h>

namespace coilward {
namespace {

struct Words {
    std::string id, title, type, turns, resistance, temperature, inductance, out;
    BobbinWords bobbin;
    WireWords wire;
};

/// One thing that can be known, and how it is asked for at a terminal.
struct Question {
    const char* asks;
    std::string* words;
};

std::vector<Question> questions(Words& words) {
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

std::optional<Spool> wire_in(const WireWords& words) {
    return words.awg == 0 && words.metric.empty() ? std::nullopt : std::optional(spool_in(words));
}

std::optional<Bobbin> bobbin_in(const BobbinWords& words) {
    const bool any = !words.core.empty() || !words.flange.empty() || !words.height.empty();
    const bool all = !words.core.empty() && !words.flange.empty() && !words.height.empty();
    if (any && !all)
        throw CLI::ValidationError("--core", "a bobbin takes all of --core, --flange and --height");
    return all ? std::optional(job_on(words).bobbin) : std::nullopt;
}

std::optional<double> resistance_at_20(const Words& words) {
    if (words.resistance.empty()) return std::nullopt;
    if (words.temperature.empty())
        throw CLI::ValidationError("--temperature", "say at what temperature the resistance was read");
    return resistance_at_20_ohm(positive_in_words("--dc-resistance", words.resistance, "ohm"),
                                number_in_words("--temperature", words.temperature, "degC"));
}

const PickupType* type_in(const Words& words, const Rules& rules) {
    if (words.type.empty()) return nullptr;
    if (const PickupType* type = rules.pickup_type(words.type)) return type;
    throw CLI::ValidationError(
        "--type", fmt::format("no pickup type is \"{}\"; \"coilward models\" lists them", words.type));
}

KnownOfCoil known_in(const Words& words, const Rules& rules) {
    KnownOfCoil known;
    known.type = type_in(words, rules);
    known.wire = wire_in(words.wire);
    known.bobbin = bobbin_in(words.bobbin);
    if (!words.turns.empty()) known.turns = limits_in_words("--turns", words.turns, "1");
    known.resistance_20_ohm = resistance_at_20(words);
    if (!words.inductance.empty())
        known.inductance_h = positive_in_words("--inductance", words.inductance, "H");
    return known;
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
void ask(Words& words, const Rules& rules) {
    std::vector<ComputedRange> before;
    const auto tell = [&] {
        const auto now = computed_ranges(known_in(words, rules));
        show(now, before, stderr);
        before = now;
    };
    for (const Question& question : questions(words)) {
        if (!question.words->empty()) continue;
        fmt::print(stderr, "{} (Enter: not known): ", question.asks);
        if (!std::getline(std::cin, *question.words)) break;
        try {
            tell();
        } catch (const CLI::ValidationError&) { // the rest of it comes with the next question
        }
    }
}

std::string source_of(const KnownOfCoil& known) {
    std::string from;
    const auto add = [&](bool is_known, const std::string& what) {
        if (is_known) from += (from.empty() ? "" : ", ") + what;
    };
    add(known.type, known.type ? "the construction " + known.type->id : "");
    add(known.bobbin.has_value(), "a bobbin measured with calipers");
    add(known.wire.has_value(), known.wire ? known.wire->title : "");
    add(known.turns.has_value(), "turns as said");
    add(known.resistance_20_ohm.has_value(), "the resistance of one coil taken for sound");
    add(known.inductance_h.has_value(), "its inductance");
    return "Computed by coilward model new from " + from + ". Let measured coils narrow it.";
}

void put_measured_bobbin(CoilModel& model, const BobbinWords& words) {
    const auto size = [](const std::string& text) {
        const auto comma = text.find(',');
        const double length = positive_in_words("--core", text.substr(0, comma), "m");
        return std::pair(length, comma == std::string::npos
                                     ? length
                                     : positive_in_words("--core", text.substr(comma + 1), "m"));
    };
    std::tie(model.bobbin.core_length_m, model.bobbin.core_width_m) = size(words.core);
    std::tie(model.bobbin.flange_length_m, model.bobbin.flange_width_m) = size(words.flange);
    model.bobbin.wound_height_m = positive_in_words("--height", words.height, "m");
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

void run(Words& words, const Session& session) {
    const Rules rules = rules_of(session);
    if (isatty(STDIN_FILENO)) ask(words, rules);
    try {
        const KnownOfCoil known = known_in(words, rules);
        show(computed_ranges(known), {}, stderr);
        CoilModel model =
            computed_model(known, words.id, words.title.empty() ? words.id : words.title, source_of(known));
        if (words.wire.awg != 0) model.wire = {.awg = words.wire.awg};
        if (known.bobbin) put_measured_bobbin(model, words.bobbin);
        write(coil_model_text(model), words.out, session);
    } catch (const NoCoilModel& error) {
        throw CLI::ValidationError("model new", error.what());
    }
}

} // namespace

void add_model_command(CLI::App& app, Session& session) {
    CLI::App* group = app.add_subcommand("model", "Make a coil model for a pickup that none fits");
    group->require_subcommand(1);
    group->footer("Example:\n  coilward model new old-steel-guitar --type strip-single --awg 44");
    auto words = std::make_shared<Words>();
    CLI::App* command = group->add_subcommand(
        "new", "Compute what a healthy coil measures from its construction, its bobbin and what was read");
    command->add_option("ID", words->id, "Of the new model: small letters, digits and hyphens")->required();
    command->add_option("--title", words->title, "What it is, in a few words");
    command->add_option("--type", words->type, "Construction: a pickup type that \"coilward models\" lists")
        ->type_name("TYPE");
    add_bobbin_options(*command, words->bobbin);
    add_wire_options(*command, words->wire);
    command->add_option("--turns", words->turns, "If they are known, such as 7500..8100");
    command->add_option("--dc-resistance", words->resistance, "Of a coil that is taken for sound");
    command->add_option("--temperature", words->temperature, "At which that was read, degC");
    command->add_option("--inductance", words->inductance, "Of it, series at 1 kHz");
    command->add_option("--out", words->out, "File to write; else standard output")->type_name("FILE");
    command->callback([words, &session] { run(*words, session); });
    command->footer("At a terminal it asks for what is not said, and shows what each answer narrows.\n\n"
                    "Example:\n  coilward model new old-steel-guitar --type strip-single --awg 44 \\\n"
                    "    --core 64mm,3mm --flange 72mm,12mm --height 5mm --out old-steel-guitar.toml");
}

} // namespace coilward
