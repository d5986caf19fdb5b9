#include "cli/command.h"
#include "rules/own_rules.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

/// Whether the words name the person's own folder, which holds no whole set of rules.
bool names_own_rules(const std::filesystem::path& folder, const Session& session) {
    std::error_code error;
    return !session.own_rules_folder.empty() &&
           std::filesystem::equivalent(folder, session.own_rules_folder, error);
}

void run(const std::filesystem::path& folder, const std::filesystem::path& own_folder) {
    const LoadedRules loaded = read_rules(folder, own_folder);
    for (const Complaint& complaint : loaded.complaints)
        fmt::print("{}\n", complaint.text());
    std::error_code error;
    const std::string with_own = std::filesystem::exists(own_folder, error)
                                     ? fmt::format(" with {} laid over it", own_folder.string())
                                     : "";
    fmt::print("{}{}: {} coil models, {} pickup types, {} faults, {}\n", folder.string(), with_own,
               loaded.rules.coil_models.size(), loaded.rules.pickup_types.size(), loaded.rules.faults.size(),
               loaded.complaints.empty() ? "nothing to complain of"
                                         : fmt::format("{} to put right", loaded.complaints.size()));
    if (!loaded.complaints.empty())
        throw BadInput(fmt::format("{}: {} to put right; see the list above", folder.string(),
                                   loaded.complaints.size()));
}

} // namespace

void add_check_rules_command(CLI::App& app, Session& session) {
    auto folder = std::make_shared<std::string>();
    CLI::App* command =
        app.add_subcommand("check-rules", "Check a folder of rules: file, line, key, what was expected");
    command->add_option(
        "FOLDER", *folder,
        "A whole folder of rules; where none is given, those of the program with your own laid over them");
    command->callback([folder, &session] {
        if (folder->empty() || names_own_rules(*folder, session))
            run(session.rules_folder, session.own_rules_folder);
        else
            run(*folder, {});
    });
    command->footer("Example:\n  coilward check-rules");
}

} // namespace coilward
