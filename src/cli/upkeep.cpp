#include "history/upkeep.h"

#include "cli/command.h"
#include "cli/history.h"
#include "cli/input.h"
#include "history/history_export.h"
#include "history/history_import.h"
#include "history/open_database.h"
#include "reading/examination_json.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct ImportWords {
    std::string file;
    bool csv = false;
};

void back_up(const std::string& file, const Session& session) {
    back_up(open_history(session), file);
    fmt::print("A sound copy is in {}\n", file);
}

void verify(Session& session) {
    const History history = open_history(session);
    const auto problems = history.problems();
    for (const std::string& problem : problems)
        fmt::print("{}\n", problem);
    if (!problems.empty())
        throw HistoryError(
            fmt::format("{}: {} {} found; copy the file to another disk before anything else, then use "
                        "the latest good copy",
                        history.place(), problems.size(), problems.size() == 1 ? "problem" : "problems"));
    fmt::print("{}: all is well\n", history.place());
}

/// Opens a history that must be there already. Throws HistoryError.
History existing_history(const std::string& address) {
    if (!names_a_server(address) &&
        !std::filesystem::exists(std::filesystem::path(address) / "history.sqlite"))
        throw HistoryError(fmt::format(
            "{}: there is no history.sqlite in it; give the folder of the other history", address));
    return History(address);
}

void say(const Adopted& adopted) {
    fmt::print(
        "New here: {} pickups, {} edits of pickups, {} visits, {} readings, {} verdicts, {} attachments\n",
        adopted.pickups, adopted.values, adopted.visits, adopted.readings, adopted.verdicts,
        adopted.attachments);
    for (const std::string& conflict : adopted.conflicts)
        fmt::print("Told differently: {}\n", conflict);
}

void merge_from(const std::string& address, const Session& session) {
    const History other = existing_history(address);
    History into = open_history(session);
    say(merge(into, other));
}

void move(const std::string& from, const std::string& to) {
    const History source = existing_history(from);
    History target(to);
    say(move_history(source, target));
    fmt::print("{} now holds all that {} holds, which stays as it is\n", target.place(), source.place());
}

void import_file(const std::string& file, bool csv, const Session& session) {
    const std::string text = read_input(file, csv ? "a table of readings" : "an exported history");
    History history = open_history(session);
    try {
        say(import(history, csv ? whole_pickups_from_csv(text, history) : whole_pickups_from_json(text)));
    } catch (const BadDocument& error) {
        throw BadInput(fmt::format("{}: {}; nothing was imported", file, error.what()));
    }
}

} // namespace

void add_upkeep_commands(CLI::App& app, Session& session) {
    auto file = std::make_shared<std::string>();
    CLI::App* backup =
        app.add_subcommand("backup", "Copy the history into a new file, while it may be in use");
    backup->add_option("FILE", *file, "The copy; must not exist yet")->required();
    backup->callback([file, &session] { back_up(*file, session); });
    backup->footer("Example:\n  coilward backup history-2026-03-02.sqlite");

    CLI::App* check = app.add_subcommand("verify", "Say whether the history is sound");
    check->callback([&session] { verify(session); });
    check->footer("Example:\n  coilward verify");

    auto csv = std::make_shared<bool>(false);
    CLI::App* all = app.add_subcommand("export", "Print the whole history as JSON, or all readings as CSV");
    all->add_flag("--csv", *csv, "All readings as CSV (RFC 4180)");
    all->callback([csv, &session] {
        const History history = open_history(session);
        fmt::print("{}", *csv ? readings_to_csv(history) : everything_to_json(history) + "\n");
    });
    all->footer("Example:\n  coilward export --csv > readings.csv");

    auto imported = std::make_shared<ImportWords>();
    CLI::App* take_in =
        app.add_subcommand("import", "Take over what an exported file has and this history has not");
    take_in->add_option("FILE", imported->file, "What coilward export printed, or - for standard input")
        ->required();
    take_in->add_flag("--csv", imported->csv, "It is CSV (RFC 4180), as of coilward export --csv");
    take_in->callback([imported, &session] { import_file(imported->file, imported->csv, session); });
    take_in->footer("Example:\n  coilward import history.json");

    auto address = std::make_shared<std::string>();
    CLI::App* other =
        app.add_subcommand("merge", "Take over what another bench's history has and this one has not");
    other
        ->add_option("HISTORY", *address, "The other history: its folder, or postgresql://USER@HOST/DATABASE")
        ->required();
    other->callback([address, &session] { merge_from(*address, session); });
    other->footer("Example:\n  coilward merge /media/stick/coilward");
}

void add_move_command(CLI::App& history) {
    auto words = std::make_shared<std::pair<std::string, std::string>>();
    CLI::App* command =
        history.add_subcommand("move", "Copy a whole history to another place, and compare them");
    command->add_option("FROM", words->first, "A folder, or postgresql://USER@HOST/DATABASE")->required();
    command->add_option("TO", words->second, "The same")->required();
    command->callback([words] { move(words->first, words->second); });
    command->footer(
        "Example:\n  coilward history move ~/.local/share/coilward postgresql://bench@server/coilward");
}

} // namespace coilward
