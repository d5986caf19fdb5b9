#include "cli/command.h"
#include "report/spool_page.h"
#include "rewind/quantity_words.h"

#include <cmath>
#include <memory>
#include <stdexcept>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct SpoolWords {
    int awg = 0;
    std::vector<std::string> readings;
    std::string resistance_uncertainty, temperature = "21", temperature_uncertainty = "1";
    std::string length, turns, turn_length, mass, enamel;
    bool json = false;
    bool svg = false;
};

/// "85.2" or "85.2@21.3": the resistance, and its temperature where that was read with it.
WireReading reading_in(const std::string& words, double usual_temperature_c) {
    const auto at = words.find('@');
    return {positive_in_words("--resistance", words.substr(0, at), "ohm"),
            at == std::string::npos ? usual_temperature_c
                                    : number_in_words("--resistance", words.substr(at + 1), "degC")};
}

std::optional<Uncertain> length_in(const SpoolWords& words) {
    if (!words.length.empty()) return uncertain_in_words("--length", words.length, "m", 0.0);
    if (words.turns.empty()) return std::nullopt;
    const Uncertain turns = uncertain_in_words("--turns", words.turns, "1", 0.0);
    const Uncertain each = uncertain_in_words("--turn-length", words.turn_length, "m", 0.0);
    return Uncertain{turns.value * each.value, std::hypot(turns.standard_uncertainty * each.value,
                                                          turns.value * each.standard_uncertainty)};
}

WirePiece piece_in(const SpoolWords& words) {
    WirePiece piece{.readings = {},
                    .resistance_uncertainty_ohm =
                        positive_in_words("--resistance-uncertainty", words.resistance_uncertainty, "ohm"),
                    .temperature_uncertainty_c =
                        positive_in_words("--temperature-uncertainty", words.temperature_uncertainty, "degC"),
                    .length_m = length_in(words)};
    const double temperature_c = number_in_words("--temperature", words.temperature, "degC");
    for (const std::string& reading : words.readings)
        piece.readings.push_back(reading_in(reading, temperature_c));
    if (!words.mass.empty()) {
        const Uncertain gram = uncertain_in_words("--mass", words.mass, "g");
        piece.mass_kg = {gram.value / 1000.0, gram.standard_uncertainty / 1000.0};
    }
    if (!words.enamel.empty()) piece.enamel_share = uncertain_in_words("--enamel", words.enamel, "1");
    return piece;
}

void run(const SpoolWords& words) {
    try {
        const SpoolCheck check = check_spool(piece_in(words), words.awg);
        if (words.json)
            fmt::print("{}\n", spool_to_json(check));
        else
            fmt::print("{}", words.svg ? spool_picture(check) : spool_page(check));
    } catch (const std::invalid_argument& error) {
        throw CLI::ValidationError("spool", error.what());
    }
}

} // namespace

void add_spool_command(CLI::App& app, Session& /*session*/) {
    auto words = std::make_shared<SpoolWords>();
    CLI::App* command =
        app.add_subcommand("spool", "Say whether a spool's wire is the gauge that its label says");
    command->add_option("--awg", words->awg, "What the label says")->required();
    command
        ->add_option("--resistance", words->readings,
                     "Of a piece of it, as 85.2 or, with the temperature read at that moment, 85.2@21.3; "
                     "repeated readings "
                     "make it more certain")
        ->required()
        ->take_all()
        ->allow_extra_args(false);
    command
        ->add_option("--resistance-uncertainty", words->resistance_uncertainty,
                     "Standard uncertainty of the meter, with its leads, such as 0.05")
        ->required();
    command->add_option("--temperature", words->temperature, "Of the piece, °C, where a reading does not say")
        ->capture_default_str();
    command
        ->add_option("--temperature-uncertainty", words->temperature_uncertainty, "Standard uncertainty, °C")
        ->capture_default_str();
    auto* size = command->add_option_group("size", "One of");
    size->add_option("--length", words->length, "Of the piece, such as 10±0.01 (m)");
    auto* turns = size->add_option("--turns", words->turns, "Turns of it on a former");
    size->add_option("--mass", words->mass, "Of the piece with its enamel, such as 0.142±0.001 (g)");
    size->require_option(1);
    turns->needs(command->add_option("--turn-length", words->turn_length,
                                     "Length of one of the turns, such as 0.12±0.0005 (m)"));
    command->add_option("--enamel", words->enamel, "Enamel's share of the mass; else 0.08±0.03");
    auto* json = command->add_flag("--json", words->json, "As one JSON document");
    command->add_flag("--svg", words->svg, "As a picture (SVG)")->excludes(json);
    command->callback([words] { run(*words); });
    command->footer(
        "Example:\n  coilward spool --awg 44 --length 10±0.01 --resistance 85.2@21.3 --resistance 85.3@21.6 "
        "--resistance-uncertainty 0.05");
}

} // namespace coilward
