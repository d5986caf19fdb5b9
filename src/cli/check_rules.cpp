#include "cli/command.h"
#include "rules/rules.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

void run(const std::filesystem::path& folder) {
    const LoadedRules loaded = read_rules(folder);
    for (const Complaint& complaint : loaded.complaints)
        fmt::print("{}\n", complaint.text());
    fmt::print("{}: {} coil models, {} pickup types, {} faults, {}\n", folder.string(),
               loaded.rules.coil_models.size(), loaded.rules.pickup_types.size(), loaded.rules.faults.size(),
               loaded.complaints.empty() ? "nothing to complain of"
                                         : fmt::format("{} to put right", loaded.complaints.size()));
    if (!loaded.complaints.empty())
        throw BadInput(
            fmt::format("{}: {} to put right, listed above", folder.string(), loaded.complaints.size()));
}

} // namespace

void add_check_rules_command(CLI::App& app, Session& session) {
    auto folder = std::make_shared<std::string>();
    CLI::App* command =
        app.add_subcommand("check-rules", "Check a folder of rules: file, line, key, what was expected");
    command->add_option("FOLDER", *folder, "The folder; the program's own rules where none is given");
    command->callback(
        [folder, &session] { run(folder->empty() ? session.rules_folder : std::filesystem::path(*folder)); });
    command->footer("Example:\n  coilward check-rules ~/.config/coilward/rules");
}

} // namespace coilward
