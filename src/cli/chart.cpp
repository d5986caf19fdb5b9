#include "cli/command.h"
#include "cli/history.h"
#include "cli/input.h"
#include "report/chart_page.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace coilward {
namespace {

struct ChartWords {
    std::string model;
    std::string quantity = "dc_resistance";
    bool json = false;
    bool svg = false;
};

void run(const ChartWords& words, const Session& session) {
    const Rules rules = rules_of(session);
    const CoilModel* model = rules.coil_model(words.model);
    if (model == nullptr)
        throw CLI::ValidationError(
            "MODEL", fmt::format("there is no coil model \"{}\"; coilward models lists them", words.model));
    const auto quantity = quantity_named(words.quantity);
    if (!quantity || unit(*quantity).empty())
        throw CLI::ValidationError("--quantity",
                                   fmt::format("\"{}\" is no quantity; write one of {}", words.quantity,
                                               fmt::join(all_names<Quantity>(), ", ")));
    try {
        const RewindChart chart =
            rewind_chart(open_history(session), *model, *quantity, rules.bench_readings);
        if (words.json)
            fmt::print("{}\n", chart_to_json(chart));
        else
            fmt::print("{}", words.svg ? chart_picture(chart) : chart_page(chart));
    } catch (const std::invalid_argument& error) {
        throw BadInput(error.what());
    }
}

} // namespace

void add_chart_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<ChartWords>();
    CLI::App* command =
        app.add_subcommand("chart", "Chart the rewinds of one coil model, and say whether they drift");
    command->add_option("MODEL", words->model, "Coil model, an id from the rules")->required();
    command->add_option("--quantity", words->quantity, "What was read of them")
        ->type_name("QUANTITY")
        ->capture_default_str();
    auto* json = command->add_flag("--json", words->json, "As one JSON document");
    command->add_flag("--svg", words->svg, "As a picture (SVG)")->excludes(json);
    command->callback([words, &session] { run(*words, session); });
    command->footer("Example:\n  coilward chart six-rod-42 --svg > rewinds.svg");
}

} // namespace coilward
