#include "cli/help_page.h"

#include "cli/wrapped_text.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <sstream>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::size_t name_width = 30;

/// A name and, from a fixed column on, what it means.
std::string two_columns(const std::string& name, const std::string& meaning) {
    std::string text = "  " + name;
    if (columns_of(text) + 2 > name_width) text += "\n" + std::string(name_width, ' ');
    const auto start = text.rfind('\n') == std::string::npos ? 0 : text.rfind('\n') + 1;
    text.append(name_width - columns_of(std::string_view(text).substr(start)), ' ');
    bool first = true;
    for (const std::string& line : wrapped(meaning, help_width - name_width)) {
        text += (first ? "" : "\n" + std::string(name_width, ' ')) + line;
        first = false;
    }
    return text + "\n";
}

/// The library's word for a kind of value, as people say it.
std::string plain_word(const std::string& type) {
    static const std::map<std::string, std::string> words{{"FLOAT", "NUMBER"}, {"INT", "N"}, {"UINT", "N"}};
    const auto found = words.find(type);
    return found == words.end() ? type : found->second;
}

/// "FLOAT in [0 - 1]" of the library's range as "0 to 1"; empty for what is no range.
std::string limits_in(const std::string& type) {
    const auto from = type.find(" in [");
    const auto dash = type.find(" - ", from);
    if (from == std::string::npos || dash == std::string::npos) return "";
    const auto low = type.substr(from + 5, dash - from - 5);
    return fmt::format("{} to {}", low, type.substr(dash + 3, type.find(']', dash) - dash - 3));
}

std::string names(const std::set<CLI::Option*>& options) {
    std::vector<std::string> all;
    for (const CLI::Option* option : options)
        all.push_back(option->get_name());
    std::ranges::sort(all); // the library keeps them by their addresses
    return fmt::format("{}", fmt::join(all, ", "));
}

/// A line to type, broken before its options.
void add_typed(const std::string& typed, std::vector<std::string>& lines) {
    const std::string going_on = " \\";
    std::string line;
    for (std::size_t from = 0; from < typed.size();) {
        const auto to = std::min(typed.find(" --", from + 1), typed.size());
        const std::string piece = typed.substr(from, to - from);
        if (!line.empty() && columns_of(line + piece + going_on) > help_width) {
            lines.push_back(line + going_on);
            line = "     ";
        }
        line += piece;
        from = to;
    }
    lines.push_back(line);
}

bool may_be_repeated(const CLI::Option& option) {
    return option.get_expected_max() == CLI::detail::expected_max_vector_size;
}

} // namespace

std::vector<std::string> footer_lines(const CLI::App& app) {
    std::vector<std::string> lines;
    std::istringstream footer(app.get_footer());
    for (std::string line; std::getline(footer, line);) {
        if (line.starts_with("  ") && columns_of(line) > help_width)
            add_typed(line, lines);
        else
            lines.push_back(line);
    }
    return lines;
}

std::string value_of_option(const CLI::Option& option) {
    if (!option.get_option_text().empty()) return option.get_option_text();
    if (option.get_type_size() == 0) return "";
    const std::string type = option.get_type_name();
    const auto choice = type.find(":{");
    if (choice != std::string::npos) return type.substr(choice + 1);
    return plain_word(type.substr(0, type.find(':')));
}

std::string terms_of_option(const CLI::Option& option) {
    std::vector<std::string> terms;
    if (const auto limits = limits_in(option.get_type_name()); !limits.empty()) terms.push_back(limits);
    if (!option.get_default_str().empty() && option.get_type_size() != 0)
        terms.push_back("else " + option.get_default_str());
    if (may_be_repeated(option)) terms.push_back("may be repeated");
    if (!option.get_needs().empty()) terms.push_back("with " + names(option.get_needs()));
    if (!option.get_excludes().empty()) terms.push_back("not with " + names(option.get_excludes()));
    if (option.get_required()) terms.push_back("required");
    return terms.empty() ? "" : fmt::format(" ({})", fmt::join(terms, "; "));
}

HelpPage::HelpPage() {
    label("Positionals", "Words");
    label("SUBCOMMAND", "COMMAND");
    label("OPTIONS", "OPTIONS");
}

std::string HelpPage::make_description(const CLI::App* app) const {
    // An unnamed part of a command is a choice of options; its description says so itself.
    return app->get_description().empty()
               ? ""
               : fmt::format("{}\n", fmt::join(wrapped(app->get_description(), help_width), "\n"));
}

std::string HelpPage::make_usage(const CLI::App* app, std::string name) const {
    const std::string usage = CLI::Formatter::make_usage(app, std::move(name));
    return fmt::format("{}\n", fmt::join(wrapped(usage, help_width), "\n       "));
}

std::string HelpPage::make_option(const CLI::Option* option, bool is_positional) const {
    const std::string value = is_positional ? "" : make_option_opts(option);
    return two_columns(make_option_name(option, is_positional) + value,
                       option->get_description() + terms_of_option(*option));
}

std::string HelpPage::make_option_opts(const CLI::Option* option) const {
    const std::string value = value_of_option(*option);
    return value.empty() ? "" : " " + value;
}

/// A choice between options, which the library calls a command without a name.
std::string HelpPage::make_expanded(const CLI::App* choice) const {
    std::string title = choice->get_group();
    title.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(title.front())));
    std::string text = fmt::format("\n{} ({}):\n", title, choice->get_description());
    for (const CLI::Option* option : choice->get_options([&](const CLI::Option* each) {
             return each != choice->get_help_ptr() && each != choice->get_help_all_ptr();
         }))
        text += make_option(option, false);
    return text;
}

std::string HelpPage::make_footer(const CLI::App* app) const {
    return fmt::format("{}\n", fmt::join(footer_lines(*app), "\n"));
}

std::string HelpPage::make_subcommand(const CLI::App* command) const {
    return two_columns(command->get_name(), command->get_description());
}

} // namespace coilward
