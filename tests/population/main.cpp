/// Draws coils from a simulator that shares no code with the diagnosis, and scores what the diagnosis says of
/// them.

#include "draw.h"
#include "follow.h"
#include "mistakes.h"
#include "models.h"
#include "outcome.h"
#include "pickups.h"
#include "protocol.h"
#include "score_tables.h"
#include "short_scores.h"

#include <iostream>
#include <optional>

#include <CLI/CLI.hpp>

namespace {

using namespace population;

const std::map<std::string, Mix> mixes{{"even", Mix::even}, {"bench", Mix::bench}};

void add_models(CLI::App& app) {
    struct Options {
        std::string rules_from;
        std::string out;
        std::optional<Mix> mix;
    };

    CLI::App* command =
        app.add_subcommand("models", "copy a folder of rules and add the simulated coil models");
    const auto options = std::make_shared<Options>();
    command->add_option("--rules-from", options->rules_from, "folder of rules to copy")->required();
    command->add_option("--out", options->out, "folder to write")->required();
    command->add_option("--mix", options->mix, "set the priors of the faults to this mix")
        ->transform(CLI::CheckedTransformer(mixes));
    command->callback([options] { write_models(options->rules_from, options->out, options->mix); });
}

void add_draw(CLI::App& app) {
    struct Options {
        DrawOptions draw;
        std::string out;
    };

    CLI::App* command = app.add_subcommand("draw", "draw coils: readings.jsonl and labels.jsonl");
    const auto options = std::make_shared<Options>();
    std::set<std::string> protocols(protocol_names().begin(), protocol_names().end());
    protocols.insert("mixed");
    command->add_option("--seed", options->draw.seed, "same seed, same coils")->required();
    command->add_option("--count", options->draw.count, "how many coils")->required();
    command->add_option("--mix", options->draw.mix, "how often each fault comes")
        ->transform(CLI::CheckedTransformer(mixes));
    command->add_option("--protocol", options->draw.protocol, "which readings are taken")
        ->check(CLI::IsMember(protocols));
    command->add_option("--fault", options->draw.fault, "every coil has this fault")
        ->check(CLI::IsMember(std::set<std::string>(fault_ids().begin(), fault_ids().end())));
    command->add_option("--shorted", options->draw.shorted_fraction, "the share of the turns of every short")
        ->check(CLI::Range(1e-4, 0.9));
    command->add_flag("--joint-errors", options->draw.errors_joint,
                      "L, R and Q of one measurement share its errors");
    command->add_flag("--earlier", options->draw.with_earlier,
                      "with an earlier, healthy examination of each coil");
    command->add_flag("--twin", options->draw.with_twin, "with a sound twin of each coil");
    command->add_option("--set", options->draw.of_its_set, "with so many sound coils of its set")
        ->check(CLI::Range(0, 10));
    command->add_flag("--another-set", options->draw.set_is_another,
                      "those are wrongly taken for its set: they are of another one");
    command->add_option("--out", options->out, "folder to write")->required();
    command->callback([options] { write_population(options->draw, options->out); });
}

void add_score(CLI::App& app) {
    struct Options {
        std::string labels;
        std::string answers;
    };

    CLI::App* command = app.add_subcommand("score", "print scores of the answers as Markdown");
    const auto options = std::make_shared<Options>();
    command->add_option("--labels", options->labels, "labels.jsonl")->required();
    command->add_option("--answers", options->answers, "what coilward diagnose --jsonl printed")->required();
    command->callback(
        [options] { print_scores(read_outcomes(options->labels, options->answers), std::cout); });
}

void add_score_shorts(CLI::App& app) {
    struct Options {
        std::string labels;
        std::string answers;
        std::string sound_labels;
        std::string sound_answers;
    };

    CLI::App* command = app.add_subcommand("score-shorts", "print how many small shorts were found");
    const auto options = std::make_shared<Options>();
    command->add_option("--labels", options->labels, "labels.jsonl of shorted coils")->required();
    command->add_option("--answers", options->answers, "what coilward said of them")->required();
    command->add_option("--sound-labels", options->sound_labels, "labels.jsonl of sound coils")->required();
    command->add_option("--sound-answers", options->sound_answers, "what coilward said of them")->required();
    command->callback([options] {
        print_short_scores(read_outcomes(options->labels, options->answers),
                           read_outcomes(options->sound_labels, options->sound_answers), std::cout);
    });
}

void add_mistakes(CLI::App& app) {
    struct Options {
        std::uint64_t seed = 0;
        int count = 0;
        std::string out;
    };

    CLI::App* command = app.add_subcommand("mistakes", "draw healthy coils read with a mistake");
    const auto options = std::make_shared<Options>();
    command->add_option("--seed", options->seed, "same seed, same coils")->required();
    command->add_option("--count", options->count, "how many of each mistake")->required();
    command->add_option("--out", options->out, "folder to write")->required();
    command->callback([options] { write_mistakes(options->seed, options->count, options->out); });
}

void add_score_mistakes(CLI::App& app) {
    struct Options {
        std::string labels;
        std::string answers;
    };

    CLI::App* command = app.add_subcommand("score-mistakes", "print how the mistakes were taken");
    const auto options = std::make_shared<Options>();
    command->add_option("--labels", options->labels, "labels.jsonl")->required();
    command->add_option("--answers", options->answers, "what coilward diagnose --jsonl printed")->required();
    command->callback([options] { print_mistake_scores(options->labels, options->answers, std::cout); });
}

void add_pickups(CLI::App& app) {
    struct Options {
        std::uint64_t seed = 0;
        int count = 0;
        std::string out;
    };

    CLI::App* command = app.add_subcommand("pickups", "draw pickups of two coils");
    const auto options = std::make_shared<Options>();
    command->add_option("--seed", options->seed, "same seed, same pickups")->required();
    command->add_option("--count", options->count, "how many")->required();
    command->add_option("--out", options->out, "folder to write")->required();
    command->callback([options] { write_pickups(options->seed, options->count, options->out); });
}

void add_score_pickups(CLI::App& app) {
    struct Options {
        std::string labels;
        std::string answers;
    };

    CLI::App* command = app.add_subcommand("score-pickups", "print how the pickups were judged");
    const auto options = std::make_shared<Options>();
    command->add_option("--labels", options->labels, "labels.jsonl")->required();
    command->add_option("--answers", options->answers, "what coilward diagnose --jsonl printed")->required();
    command->callback([options] { print_pickup_scores(options->labels, options->answers, std::cout); });
}

void add_follow(CLI::App& app) {
    CLI::App* command = app.add_subcommand("follow", "take the readings that the diagnosis asks for");
    const auto options = std::make_shared<FollowOptions>();
    command->add_option("--program", options->program, "the built coilward")->required();
    command->add_option("--rules", options->rules, "folder of rules")->required();
    command->add_option("--drawn", options->drawn, "folder of drawn coils")->required();
    command->add_option("--count", options->count, "how many of them");
    command->callback([options] { print_follow_scores(*options, std::cout); });
}

} // namespace

int main(int argc, char** argv) {
    CLI::App app{"An independent population of simulated coils, and the score of a diagnosis on it"};
    app.require_subcommand(1);
    add_models(app);
    add_draw(app);
    add_score(app);
    add_score_shorts(app);
    add_mistakes(app);
    add_score_mistakes(app);
    add_pickups(app);
    add_score_pickups(app);
    add_follow(app);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : 2;
    } catch (const std::exception& error) {
        std::cerr << "population: " << error.what() << '\n';
        return 1;
    }
    return 0;
}
