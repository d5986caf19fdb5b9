#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>

namespace CLI {
class App;
}

namespace coilward {

/// What every command may be told, and what it answers with: 0 done, 1 the work could not be done, 2 the
/// words of the command are wrong, 3 an input file is wrong.
struct Session {
    std::filesystem::path rules_folder;       ///< those that ship, or what --rules says
    std::filesystem::path drivers_folder;     ///< those that ship, or what --drivers says
    std::filesystem::path own_rules_folder;   ///< a person's own, laid over them; empty with --rules
    std::filesystem::path own_drivers_folder; ///< the same; empty with --drivers
    std::filesystem::path
        data_folder;      ///< where the history lies, or a server's address; empty for the user's own
    std::string log_file; ///< of --log; empty: nothing is kept
    int exit_code = 0;    ///< as above; set by the command
};

/// An input file that is wrong (exit code 3). One line.
struct BadInput : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// `coilward chart`. Each of these adds one command to the program, as its name says; the work is done while
/// the words are parsed, and the file has the command's name.
void add_chart_command(CLI::App&, Session&);
void add_check_driver_command(CLI::App&, Session&); ///< `coilward check-driver`
void add_check_rules_command(CLI::App&, Session&);  ///< `coilward check-rules`
void add_compare_command(CLI::App&, Session&);      ///< `coilward compare`
void add_confirm_command(CLI::App&, Session&);      ///< `coilward confirm`
void add_demo_command(CLI::App&, Session&);         ///< `coilward demo`
void add_diagnose_command(CLI::App&, Session&);     ///< `coilward diagnose`
void add_examine_command(CLI::App&, Session&);      ///< `coilward examine`
void add_find_command(CLI::App&, Session&);         ///< `coilward find`
void add_history_command(CLI::App&, Session&);      ///< `coilward history`
void add_model_command(CLI::App&, Session&);        ///< `coilward model`
void add_models_command(CLI::App&, Session&);       ///< `coilward models`
void add_pickup_command(CLI::App&, Session&);       ///< `coilward pickup`
void add_plan_command(CLI::App&, Session&);         ///< `coilward plan`
void add_ports_command(CLI::App&, Session&);        ///< `coilward ports`
void add_replay_command(CLI::App&, Session&);       ///< `coilward replay`
void add_serve_command(CLI::App&, Session&);        ///< `coilward serve`
void add_simulate_command(CLI::App&, Session&);     ///< `coilward simulate`
void add_spool_command(CLI::App&, Session&);        ///< `coilward spool`
void add_upkeep_commands(CLI::App&, Session&); ///< `coilward backup`, `verify`, `export`, `import`, `merge`
void add_watch_command(CLI::App&, Session&);   ///< `coilward watch`

} // namespace coilward
