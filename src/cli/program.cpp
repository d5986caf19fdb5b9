#include "cli/program.h"

#include "cli/command.h"
#include "cli/commands.h"
#include "cli/own_files.h"
#include "rewind/quantity_words.h"

#include <cstdlib>

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

/// The command that was chosen, or the program where none was.
const CLI::App& chosen(const CLI::App& app) {
    const auto below = app.get_subcommands();
    return below.empty() ? app : chosen(*below.front());
}

/// "coilward pickup add": what the help of the chosen command is asked by.
std::string words_of_command(const CLI::App& app) {
    const auto below = app.get_subcommands();
    return below.empty() ? app.get_name() : app.get_name() + " " + words_of_command(*below.front());
}

/// Option groups are commands without a name to the library, and are left out.
std::vector<std::string> commands_of(const CLI::App& command) {
    std::vector<std::string> names;
    for (const CLI::App* each : command.get_subcommands([](const CLI::App*) { return true; }))
        if (!each->get_name().empty()) names.push_back(each->get_name());
    return names;
}

/// What is wrong with the words. The library reports an unknown command as a missing one, and of an unknown
/// option beside one that is missing only the latter.
std::string explained(const CLI::App& app, const CLI::ParseError& error) {
    const CLI::App& command = chosen(app);
    const auto names = commands_of(command);
    const auto left_over = app.remaining(true);
    const bool misses = error.get_exit_code() == static_cast<int>(CLI::ExitCodes::RequiredError);
    if (!misses || (names.empty() && left_over.empty())) return error.what();
    if (left_over.empty())
        return fmt::format("no command is given; the commands are {}", fmt::join(names, ", "));
    const char* kind = left_over.front().starts_with('-') ? "option" : names.empty() ? "argument" : "command";
    const std::string found =
        fmt::format("\"{}\" is no {} of {}", left_over.front(), kind, command.get_name());
    return names.empty() ? found : fmt::format("{}; the commands are {}", found, fmt::join(names, ", "));
}

} // namespace

int run_program(int count, char** words, const std::filesystem::path& shipped) {
    const auto own = own_files(std::getenv("XDG_CONFIG_HOME"), std::getenv("HOME"));
    Session session{.rules_folder = shipped / "rules", .drivers_folder = shipped / "drivers"};
    if (!own.empty()) {
        session.own_rules_folder = own / "rules";
        session.own_drivers_folder = own / "drivers";
    }
    CLI::App app;
    add_commands(app, session);
    try {
        app.parse(count, words);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return app.exit(error);
        say_failure(fmt::format("{}; see {} --help", explained(app, error), words_of_command(app)).c_str());
        return words_wrong;
    } catch (const BadWords& error) {
        say_failure(fmt::format("{}; see {} --help", error.what(), words_of_command(app)).c_str());
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
