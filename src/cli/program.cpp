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

} // namespace

int run_program(int count, char** words) {
    Session session{.rules_folder = COILWARD_RULES_FOLDER, .drivers_folder = COILWARD_DRIVERS_FOLDER};
    CLI::App app("Finds what is wrong with an instrument pickup's coil, and keeps its history.", "coilward");
    app.require_subcommand(1);
    app.fallthrough();
    app.add_option("--rules", session.rules_folder, "Folder of coil models, pickup types and faults");
    app.add_option("--drivers", session.drivers_folder, "Folder of meter drivers");
    app.add_option("--data", session.data_folder, "Folder of the history");
    add_check_rules_command(app, session);
    add_diagnose_command(app, session);
    add_history_command(app, session);
    add_models_command(app, session);
    add_pickup_command(app, session);
    add_watch_command(app, session);
    try {
        app.parse(count, words);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return app.exit(error);
        say_failure(fmt::format("{}; see coilward --help", error.what()).c_str());
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
