#include "packaging/completion.h"

#include <fmt/format.h>

namespace coilward {
namespace {

std::string in_quotes(const std::string& text) {
    std::string quoted = "'";
    for (const char c : text) {
        if (c == '\'' || c == '\\') quoted += '\\';
        quoted += c;
    }
    return quoted + "'";
}

std::string arguments_for(const std::string& value) {
    switch (kind_of_value(value)) {
    case ValueKind::none:
        return "";
    case ValueKind::file:
        return " -r -F";
    case ValueKind::folder:
        return " -x -a '(__fish_complete_directories)'";
    case ValueKind::choice:
        return fmt::format(" -x -a '{}'", fmt::join(choices_in(value), " "));
    case ValueKind::driver:
        return " -x -a '(__coilward_drivers)'";
    case ValueKind::coil_model:
        return " -x -a '(__coilward_coil_models)'";
    case ValueKind::port:
        return " -r -F -a '(__coilward_ports)'";
    case ValueKind::any:
        break;
    }
    return " -x";
}

std::string option_row(const DescribedOption& option, const std::string& condition) {
    std::string row = "complete -c coilward -n " + condition;
    for (const std::string& name : option.names)
        row += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
    return row + arguments_for(option.value) + " -d " + in_quotes(option.meaning) + "\n";
}

std::string rows_for(const DescribedCommand& command) {
    const std::string condition = fmt::format("'__coilward_at {}'", command.full_name());
    std::string rows;
    for (const DescribedCommand& below : command.commands)
        rows += fmt::format("complete -c coilward -n {} -f -a {} -d {}\n", condition, below.name(),
                            in_quotes(below.meaning));
    if (command.commands.empty() && !command.words.empty())
        rows += fmt::format("complete -c coilward -n {}{}\n", condition,
                            arguments_for(command.words.front().names.front()));
    if (command.commands.empty() && command.words.empty())
        rows += fmt::format("complete -c coilward -n {} -f\n", condition);
    if (command.path.size() > 1)
        for (const DescribedOption& option : command.options)
            rows += option_row(option, condition);
    return rows;
}

constexpr auto fish_functions = R"fish(# Completes coilward in fish. Made from the program's own help.

# Whether the words so far name this command: __coilward_at coilward pickup add
function __coilward_at
    set -l at coilward
    for word in (commandline -opc)[2..-1]
        contains -- "$at $word" $__coilward_commands; and set at "$at $word"
    end
    test "$at" = "$argv"
end

function __coilward_drivers
    coilward ports --meters 2>/dev/null | string match -r '^[a-z][a-z0-9-]*(?= )'
end

function __coilward_coil_models
    coilward models 2>/dev/null | sed '/^Pickup types/,$d' | string match -r '^[a-z][a-z0-9-]*(?= )'
end

function __coilward_ports
    printf '%s\n' /dev/ttyUSB* /dev/ttyACM* tcp:// replay: 2>/dev/null
end

)fish";

} // namespace

std::string fish_completion(const DescribedCommand& program) {
    const auto all = with_all_below(program);
    std::string text = fish_functions;
    text += "set -g __coilward_commands";
    for (const DescribedCommand* command : all)
        if (command->path.size() > 1) text += " '" + command->full_name() + "'";
    text += "\n\n";
    for (const DescribedOption& option : program.options)
        if (option.names.back() != "--help" && option.names.back() != "--version")
            text += option_row(option, "true");
    for (const DescribedCommand* command : all)
        text += rows_for(*command);
    return text;
}

} // namespace coilward
