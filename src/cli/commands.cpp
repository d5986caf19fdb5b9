#include "cli/commands.h"

#include "cli/help_page.h"

#include <initializer_list>

#include <CLI/CLI.hpp>

namespace coilward {
namespace {

using AddCommand = void (*)(CLI::App&, Session&);

/// Adds commands that the help lists together.
void add_group(CLI::App& app, Session& session, const char* title,
               std::initializer_list<AddCommand> commands) {
    for (const AddCommand add : commands)
        add(app, session);
    for (CLI::App* command : app.get_subcommands({}))
        if (command->get_group() == "Subcommands") command->group(title); // the library's own word
}

void add_folders(CLI::App& app, Session& session) {
    app.add_option("--rules", session.rules_folder,
                   "Folder of coil models, pickup types and faults, in place of the program's and your own")
        ->each([&session](const std::string&) { session.own_rules_folder.clear(); })
        ->type_name("DIR");
    app.add_option("--drivers", session.drivers_folder,
                   "Folder of meter drivers, in place of the program's and your own")
        ->each([&session](const std::string&) { session.own_drivers_folder.clear(); })
        ->type_name("DIR");
    app.add_option("--data", session.data_folder,
                   "Where the history lies: a folder, or postgresql://USER@HOST/DATABASE")
        ->type_name("HISTORY");
    app.add_option(
           "--log", session.log_file,
           "Add to this file what happens along the way: meters lost and back, requests refused; - for "
           "standard error")
        ->type_name("FILE");
}

} // namespace

void add_commands(CLI::App& app, Session& session) {
    app.name("coilward");
    app.description("Finds what is wrong with an instrument pickup's coil, and keeps its history.");
    app.formatter(std::make_shared<HelpPage>());
    app.require_subcommand(1);
    app.fallthrough();
    app.set_version_flag("--version", "coilward " COILWARD_VERSION);
    add_folders(app, session);
    add_group(app, session, "At the bench",
              {add_examine_command, add_diagnose_command, add_serve_command, add_demo_command});
    add_group(app, session, "Meters",
              {add_ports_command, add_find_command, add_watch_command, add_replay_command,
               add_simulate_command, add_check_driver_command});
    add_group(app, session, "Pickups and their history",
              {add_pickup_command, add_history_command, add_upkeep_commands});
    add_group(
        app, session, "Rewinding",
        {add_plan_command, add_confirm_command, add_compare_command, add_chart_command, add_spool_command});
    add_group(app, session, "Coil models and rules",
              {add_models_command, add_model_command, add_check_rules_command});
    app.footer(
        "Examples:\n  coilward demo\n  coilward ports\n"
        "  coilward examine neck --meter dmm-scpi --port tcp://192.168.1.20:5025\n\n"
        "coilward COMMAND --help tells more of each. Take the pickup out of its circuit and unplug the\n"
        "amplifier before measuring: valve amplifiers hold a lethal charge when off.");
}

} // namespace coilward
