#include "cli/program.h"

#include "cli/command.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

constexpr int work_failed = 1;
constexpr int words_wrong = 2;
constexpr int input_wrong = 3;

void say_failure(const char* what) {
    fmt::print(stderr, "coilward: {}\n", what);
}

/// What is wrong with the words. The library reports an unknown command as a missing one.
std::string explained(const CLI::App& app, const CLI::ParseError& error) {
    const CLI::App* command = &app;
    while (!command->get_subcommands().empty())
        command = command->get_subcommands().front();
    const auto known = command->get_subcommands([](const CLI::App*) { return true; });
    if (known.empty() || error.get_exit_code() != static_cast<int>(CLI::ExitCodes::RequiredError))
        return error.what();
    std::vector<std::string> names;
    for (const CLI::App* each : known)
        names.push_back(each->get_name());
    const auto left_over = app.remaining(true);
    const std::string found =
        left_over.empty()
            ? "no command is given"
            : fmt::format("\"{}\" is no {} of {}", left_over.front(),
                          left_over.front().starts_with('-') ? "option" : "command", command->get_name());
    return fmt::format("{}; the commands are {}", found, fmt::join(names, ", "));
}

} // namespace

int run_program(int count, char** words) {
    Session session{.rules_folder = COILWARD_RULES_FOLDER, .drivers_folder = COILWARD_DRIVERS_FOLDER};
    CLI::App app("Finds what is wrong with an instrument pickup's coil, and keeps its history.", "coilward");
    app.require_subcommand(1);
    app.fallthrough();
    app.add_option("--rules", session.rules_folder, "Folder of coil models, pickup types and faults");
    app.add_option("--drivers", session.drivers_folder, "Folder of meter drivers");
    app.add_option("--data", session.data_folder,
                   "Where the history lies: a folder, or postgresql://USER@HOST/DATABASE");
    add_chart_command(app, session);
    add_check_driver_command(app, session);
    add_check_rules_command(app, session);
    add_compare_command(app, session);
    add_confirm_command(app, session);
    add_demo_command(app, session);
    add_diagnose_command(app, session);
    add_examine_command(app, session);
    add_find_command(app, session);
    add_history_command(app, session);
    add_model_command(app, session);
    add_models_command(app, session);
    add_pickup_command(app, session);
    add_plan_command(app, session);
    add_ports_command(app, session);
    add_replay_command(app, session);
    add_serve_command(app, session);
    add_simulate_command(app, session);
    add_spool_command(app, session);
    add_upkeep_commands(app, session);
    add_watch_command(app, session);
    try {
        app.parse(count, words);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return app.exit(error);
        say_failure(fmt::format("{}; see coilward --help", explained(app, error)).c_str());
        return words_wrong;
    } catch (const BadInput& error) {
        say_failure(error.what());
        return input_wrong;
    } catch (const std::exception& error) {
        say_failure(error.what());
        return work_failed;
    }
    return session.exit_code;
}

} // namespace coilward
