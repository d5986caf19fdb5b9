#include "history/upkeep.h"

#include "cli/command.h"
#include "cli/history.h"
#include "history/history_export.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

void back_up(const std::string& file, const Session& session) {
    back_up(open_history(session), file);
    fmt::print("A sound copy is in {}\n", file);
}

void verify(Session& session) {
    const History history = open_history(session);
    const auto problems = problems_in(history);
    for (const std::string& problem : problems)
        fmt::print("{}\n", problem);
    if (!problems.empty())
        throw HistoryError(fmt::format(
            "{}: {} {} found; copy the file to another disk before anything else, then use "
            "the latest good copy",
            history.file().string(), problems.size(), problems.size() == 1 ? "problem" : "problems"));
    fmt::print("{}: all is well\n", history.file().string());
}

void merge_from(const std::string& folder, const Session& session) {
    if (!std::filesystem::exists(std::filesystem::path(folder) / "history.sqlite"))
        throw HistoryError(fmt::format(
            "{}: there is no history.sqlite in it; give the folder of the other history", folder));
    History into = open_history(session);
    const Merged merged = merge(into, History(folder));
    fmt::print("New here: {} pickups, {} visits, {} readings, {} verdicts\n", merged.pickups, merged.visits,
               merged.readings, merged.verdicts);
    for (const std::string& conflict : merged.conflicts)
        fmt::print("Described differently: {}\n", conflict);
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

    auto folder = std::make_shared<std::string>();
    CLI::App* other =
        app.add_subcommand("merge", "Take over what another bench's history has and this one has not");
    other->add_option("FOLDER", *folder, "The folder of the other history")->required();
    other->callback([folder, &session] { merge_from(*folder, session); });
    other->footer("Example:\n  coilward merge /media/stick/coilward");
}

} // namespace coilward
