#include "packaging/completion.h"

#include <fmt/format.h>

namespace coilward {
namespace {

/// The command by which bash fills COMPREPLY for such a value.
std::string reply_for(const std::string& value) {
    switch (kind_of_value(value)) {
    case ValueKind::file:
        return "_coilward_files";
    case ValueKind::folder:
        return "_coilward_folders";
    case ValueKind::choice:
        return fmt::format("_coilward_words \"{}\"", fmt::join(choices_in(value), " "));
    case ValueKind::driver:
        return "_coilward_words \"$(_coilward_drivers)\"";
    case ValueKind::coil_model:
        return "_coilward_words \"$(_coilward_coil_models)\"";
    case ValueKind::port:
        return "_coilward_ports";
    case ValueKind::none:
    case ValueKind::any:
        break;
    }
    return ":";
}

/// "coilward watch --meter"|… ) …: what follows an option of a command.
std::string value_rows(const DescribedCommand& command) {
    std::string rows;
    for (const DescribedOption& option : command.options)
        for (const std::string& name : option.names)
            if (!option.value.empty())
                rows += fmt::format("        \"{} {}\") {}; return ;;\n", command.full_name(), name,
                                    reply_for(option.value));
    return rows;
}

std::string global_value_rows(const DescribedCommand& program) {
    std::string rows;
    for (const DescribedOption& option : program.options)
        for (const std::string& name : option.names)
            if (!option.value.empty())
                rows += fmt::format("        {}) {}; return ;;\n", name, reply_for(option.value));
    return rows;
}

std::string option_names(const DescribedCommand& command) {
    std::vector<std::string> names;
    for (const DescribedOption& option : command.options)
        names.insert(names.end(), option.names.begin(), option.names.end());
    return fmt::format("{}", fmt::join(names, " "));
}

std::string command_names(const DescribedCommand& command) {
    std::vector<std::string> names;
    for (const DescribedCommand& below : command.commands)
        names.push_back(below.name());
    return fmt::format("{}", fmt::join(names, " "));
}

std::string row(const DescribedCommand& command) {
    std::string text = fmt::format("        \"{}\")\n            options=\"{}\"\n", command.full_name(),
                                   option_names(command));
    if (!command.commands.empty())
        text += fmt::format("            commands=\"{}\"\n", command_names(command));
    if (!command.words.empty())
        text += fmt::format("            word='{}'\n", reply_for(command.words.front().names.front()));
    return text + "            ;;\n";
}

constexpr auto functions = R"(# Completes coilward in bash. Made from the program's own help.

_coilward_words() { mapfile -t COMPREPLY < <(compgen -W "$1" -- "$cur"); }
_coilward_files() { compopt -o filenames; mapfile -t COMPREPLY < <(compgen -f -- "$cur"); }
_coilward_folders() { compopt -o filenames; mapfile -t COMPREPLY < <(compgen -d -- "$cur"); }
_coilward_ports() { compopt -o filenames; mapfile -t COMPREPLY < <(compgen -G "${cur:-/dev/tty}*"; compgen -W "tcp:// replay:" -- "$cur"); }
_coilward_drivers() { coilward ports --meters 2>/dev/null | sed -n 's/^\([a-z][a-z0-9-]*\) .*/\1/p'; }
_coilward_coil_models() { coilward models 2>/dev/null | sed -n '/^Pickup types/q; s/^\([a-z][a-z0-9-]*\) .*/\1/p'; }

)";

} // namespace

std::string bash_completion(const DescribedCommand& program) {
    const auto all = with_all_below(program);
    std::string text = functions;
    text += "_coilward() {\n"
            "    local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD - 1]}\n"
            "    local command=coilward options commands='' word=: i\n"
            "    COMPREPLY=()\n"
            "    for ((i = 1; i < COMP_CWORD; i++)); do\n"
            "        case \"$command ${COMP_WORDS[i]}\" in\n";
    for (const DescribedCommand* command : all)
        if (command->path.size() > 1)
            text += fmt::format("        \"{0}\") command=\"{0}\" ;;\n", command->full_name());
    text += "        esac\n    done\n    case \"$command $prev\" in\n";
    for (const DescribedCommand* command : all)
        if (command->path.size() > 1) text += value_rows(*command);
    text += "    esac\n    case $prev in\n" + global_value_rows(program) + "    esac\n    case $command in\n";
    for (const DescribedCommand* command : all)
        text += row(*command);
    text += fmt::format(
        "    esac\n"
        "    case $cur in\n"
        "        -*) _coilward_words \"$options {}\" ;;\n"
        "        *) if [ -n \"$commands\" ]; then _coilward_words \"$commands\"; else eval \"$word\"; fi ;;\n"
        "    esac\n"
        "}}\n"
        "complete -F _coilward coilward\n",
        option_names(program));
    return text;
}

} // namespace coilward
