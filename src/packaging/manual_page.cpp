#include "packaging/manual_page.h"

#include <algorithm>
#include <cctype>
#include <sstream>

#include <fmt/format.h>

namespace coilward {
namespace {

/// Text as roff takes it: no backslash, hyphens that stay hyphens, no control character at the start of a
/// line.
std::string escaped(std::string_view text) {
    std::string result;
    for (const char c : text) {
        if (c == '\\')
            result += "\\e";
        else if (c == '-')
            result += "\\-";
        else
            result += c;
    }
    if (result.starts_with('.') || result.starts_with('\'')) result.insert(0, "\\&");
    return result;
}

std::string in_capitals(std::string text) {
    std::ranges::transform(text, text.begin(), [](unsigned char c) { return std::toupper(c); });
    return text;
}

std::string synopsis(const DescribedCommand& command) {
    std::string text = fmt::format(".B {}\n", escaped(command.full_name()));
    text += "[\\fIoptions\\fR]\n";
    for (const DescribedOption& word : command.words) {
        const std::string name =
            "\\fI" + escaped(word.names.front()) + "\\fR" + (word.may_be_repeated ? "..." : "");
        text += word.required ? name + "\n" : "[" + name + "]\n";
    }
    if (!command.commands.empty())
        text += command.words.empty() ? "\\fIcommand\\fR ...\n" : "[\\fIcommand\\fR ...]\n";
    return text;
}

std::string option_entry(const DescribedOption& option) {
    std::vector<std::string> names;
    for (const std::string& name : option.names)
        names.push_back("\\fB" + escaped(name) + "\\fR");
    const std::string value = option.value.empty() ? "" : " \\fI" + escaped(option.value) + "\\fR";
    return fmt::format(".TP\n{}{}\n{}\n", fmt::join(names, ", "), value, escaped(option.meaning));
}

std::string option_section(const char* title, const std::vector<DescribedOption>& options) {
    if (options.empty()) return "";
    std::string text = fmt::format(".SH {}\n", title);
    for (const DescribedOption& option : options)
        text += option_entry(option);
    return text;
}

std::string command_section(const DescribedCommand& command) {
    if (command.commands.empty()) return "";
    std::string text = ".SH COMMANDS\n";
    std::string group;
    for (const DescribedCommand& below : command.commands) {
        if (command.path.size() == 1 && below.group != group) text += fmt::format(".SS {}\n", below.group);
        group = below.group;
        text += fmt::format(".TP\n.BR {} (1)\n{}\n", escaped(below.full_name("-")), escaped(below.meaning));
    }
    return text;
}

/// The footer: prose, and lines as they are typed where they are indented. "Example:" opens a section.
std::string footer_section(const std::string& footer) {
    std::string text;
    std::istringstream lines(footer);
    bool typed = false;
    bool titled = false;
    for (std::string line; std::getline(lines, line);) {
        const bool types = line.starts_with("  ");
        if (typed && !types) text += ".EE\n";
        if (line == "Example:" || line == "Examples:")
            text += ".SH EXAMPLES\n";
        else if (line.empty())
            text += ".PP\n";
        else {
            if (text.empty() && !titled) text += ".SH NOTES\n";
            if (types && !typed) text += ".PP\n.EX\n";
            text += escaped(line) + "\n";
        }
        titled = true;
        typed = types;
    }
    return typed ? text + ".EE\n" : text;
}

std::string see_also(const DescribedCommand& command, const DescribedCommand& program) {
    if (command.path.size() == 1) return "";
    std::string text = ".SH SEE ALSO\n.BR coilward (1)";
    for (const DescribedCommand* each : with_all_below(program))
        if (each->path.size() == command.path.size() && each->path != command.path &&
            each->group == command.group &&
            std::equal(each->path.begin(), each->path.end() - 1, command.path.begin()))
            text += fmt::format(",\n.BR {} (1)", escaped(each->full_name("-")));
    return text + "\n";
}

constexpr auto what_holds_for_all = R"(.SH EXIT STATUS
.TP
.B 0
done; a bad verdict is still done
.TP
.B 1
the work could not be done: a device was lost, the history is damaged
.TP
.B 2
the words of the command are wrong
.TP
.B 3
an input file is wrong
.PP
Every failure is one line on standard error: what, where, and what to do.
.SH FILES
.TP
.I $XDG_DATA_HOME/coilward
the history; where the variable is not set, ~/.local/share/coilward
.TP
.I $XDG_CONFIG_HOME/coilward/rules
your own coil models, pickup types and faults, in coils/, pickups/ and faults/; a file takes the place of the
one of its name that ships, any other is added. Where the variable is not set, ~/.config/coilward/rules
.TP
.I $XDG_CONFIG_HOME/coilward/drivers
your own drivers, laid over those that ship in the same way
.SH CAUTIONS
Take the pickup out of its circuit and unplug the amplifier before measuring: valve amplifiers hold a lethal
charge when off. Local codes and licensed practice come first; each fault's cautions are printed with its verdict.
)";

} // namespace

std::string manual_page(const DescribedCommand& command, const DescribedCommand& program,
                        const std::string& version) {
    const std::string name = command.full_name("-");
    const bool whole_program = command.path.size() == 1;
    std::string page =
        fmt::format(".TH {} 1 \"\" \"Coilward {}\" \"Coilward\"\n", escaped(in_capitals(name)), version);
    page += fmt::format(".SH NAME\n{} \\- {}\n", escaped(name), escaped(command.meaning));
    page += ".SH SYNOPSIS\n" + synopsis(command);
    page += fmt::format(".SH DESCRIPTION\n{}\n", escaped(command.meaning));
    page += option_section("WORDS", command.words);
    page += command_section(command);
    page += option_section(whole_program ? "OPTIONS OF EVERY COMMAND" : "OPTIONS", command.options);
    if (!whole_program) page += ".PP\nThe options of every command are in\n.BR coilward (1).\n";
    page += footer_section(command.footer);
    if (whole_program) page += what_holds_for_all;
    return page + see_also(command, program);
}

} // namespace coilward
