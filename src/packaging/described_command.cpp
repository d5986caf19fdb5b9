#include "packaging/described_command.h"

#include "cli/commands.h"
#include "cli/help_page.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

DescribedOption described(const CLI::Option& option) {
    DescribedOption result{.meaning = option.get_description() + terms_of_option(option),
                           .required = option.get_required(),
                           .may_be_repeated =
                               option.get_expected_max() == CLI::detail::expected_max_vector_size};
    if (option.get_positional()) {
        result.names = {option.get_name(true, false)};
        return result;
    }
    for (const std::string& name : option.get_snames())
        result.names.push_back("-" + name);
    for (const std::string& name : option.get_lnames())
        result.names.push_back("--" + name);
    result.value = value_of_option(option);
    return result;
}

/// The options of a command and of the choices ("one of") that it has.
void collect(const CLI::App& app, DescribedCommand& into) {
    for (const CLI::Option* option : app.get_options())
        (option->get_positional() ? into.words : into.options).push_back(described(*option));
    for (const CLI::App* below : app.get_subcommands([](const CLI::App*) { return true; }))
        if (below->get_name().empty()) collect(*below, into);
}

DescribedCommand described(const CLI::App& app, std::vector<std::string> path) {
    path.push_back(app.get_name());
    DescribedCommand command{.path = path,
                             .meaning = app.get_description(),
                             .group = app.get_group(),
                             .footer = fmt::format("{}", fmt::join(footer_lines(app), "\n"))};
    collect(app, command);
    for (const CLI::App* below : app.get_subcommands([](const CLI::App*) { return true; }))
        if (!below->get_name().empty()) command.commands.push_back(described(*below, path));
    return command;
}

} // namespace

std::string DescribedCommand::full_name(const char* separator) const {
    return fmt::format("{}", fmt::join(path, separator));
}

DescribedCommand described_program() {
    CLI::App app;
    Session session;
    add_commands(app, session);
    return described(app, {});
}

std::vector<const DescribedCommand*> with_all_below(const DescribedCommand& command) {
    std::vector<const DescribedCommand*> all{&command};
    for (const DescribedCommand& below : command.commands)
        for (const DescribedCommand* each : with_all_below(below))
            all.push_back(each);
    return all;
}

} // namespace coilward
