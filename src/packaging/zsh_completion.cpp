#include "packaging/completion.h"

#include <array>
#include <utility>

#include <fmt/format.h>

namespace coilward {
namespace {

std::string replaced(std::string text, std::string_view what, std::string_view by) {
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
        text.replace(at, what.size(), by);
    return text;
}

/// In single quotes; what _arguments and _describe would take for their own signs gets a backslash.
std::string in_quotes(std::string_view before, std::string meaning, std::string_view after) {
    constexpr std::array<std::pair<const char*, const char*>, 4> signs{
        {{"\\", "\\\\"}, {"[", "\\["}, {"]", "\\]"}, {":", "\\:"}}};
    for (const auto& [sign, escaped] : signs)
        meaning = replaced(meaning, sign, escaped);
    return "'" + std::string(before) + replaced(meaning, "'", "'\\''") + std::string(after) + "'";
}

std::string action_for(const std::string& value) {
    switch (kind_of_value(value)) {
    case ValueKind::file:
        return "_files";
    case ValueKind::folder:
        return "_files -/";
    case ValueKind::choice:
        return fmt::format("({})", fmt::join(choices_in(value), " "));
    case ValueKind::driver:
        return "__coilward_drivers";
    case ValueKind::coil_model:
        return "__coilward_coil_models";
    case ValueKind::port:
        return "__coilward_ports";
    case ValueKind::none:
    case ValueKind::any:
        break;
    }
    return " ";
}

std::string argument(const DescribedOption& option) {
    std::string text;
    for (const std::string& name : option.names) {
        const std::string value =
            option.value.empty() ? "" : fmt::format(":{}:{}", option.value, action_for(option.value));
        text += " \\\n        " +
                in_quotes((option.may_be_repeated ? "*" : "") + name + "[", option.meaning, "]" + value);
    }
    return text;
}

std::string word(const DescribedOption& described, std::size_t place) {
    const std::string where = described.may_be_repeated ? "*" : std::to_string(place);
    const std::string& name = described.names.front();
    return fmt::format(" \\\n        '{}:{}:{}'", where, name, action_for(name));
}

std::string function_name(const DescribedCommand& command) {
    return "_" + replaced(command.full_name("_"), "-", "_");
}

/// The commands below, and where one was chosen the function that knows it.
std::string choice_below(const DescribedCommand& command) {
    std::string text = "    case $state in\n    command)\n        local -a commands=(\n";
    for (const DescribedCommand& below : command.commands)
        text += "            " + in_quotes(below.name() + ":", below.meaning, "") + "\n";
    text += "        )\n        _describe command commands ;;\n    words)\n        case $words[1] in\n";
    for (const DescribedCommand& below : command.commands)
        text += fmt::format("        {}) {} ;;\n", below.name(), function_name(below));
    return text + "        esac ;;\n    esac\n";
}

std::string function_for(const DescribedCommand& command, const DescribedCommand& program) {
    std::string text = fmt::format("{}() {{\n    local curcontext=$curcontext state line\n    _arguments -C",
                                   function_name(command));
    for (const DescribedOption& option : command.options)
        text += argument(option);
    if (command.path.size() > 1)
        for (const DescribedOption& option : program.options)
            if (option.names.back() != "--help" && option.names.back() != "--version")
                text += argument(option);
    if (!command.commands.empty())
        return text + " \\\n        '1: :->command' \\\n        '*:: :->words'\n" + choice_below(command) +
               "}\n\n";
    for (std::size_t i = 0; i < command.words.size(); ++i)
        text += word(command.words[i], i + 1);
    return text + "\n}\n\n";
}

constexpr auto zsh_functions = R"zsh(#compdef coilward
# Completes coilward in zsh. Made from the program's own help.

__coilward_drivers() {
    local -a found=(${(f)"$(coilward ports --meters 2>/dev/null | sed -n 's/^\([a-z][a-z0-9-]*\) .*/\1/p')"})
    _describe driver found
}

__coilward_coil_models() {
    local -a found=(${(f)"$(coilward models 2>/dev/null | sed -n '/^Pickup types/q; s/^\([a-z][a-z0-9-]*\) .*/\1/p')"})
    _describe 'coil model' found
}

__coilward_ports() {
    _alternative 'devices:device:(/dev/tty(USB|ACM)*(N))' 'others:port:(tcp\:// replay\:)' 'files:file:_files'
}

)zsh";

} // namespace

std::string zsh_completion(const DescribedCommand& program) {
    std::string text = zsh_functions;
    for (const DescribedCommand* command : with_all_below(program))
        text += function_for(*command, program);
    return text + "_coilward \"$@\"\n";
}

} // namespace coilward
