#pragma once

#include <CLI/CLI.hpp>

namespace coilward {

/// The columns of a terminal that every help fits.
inline constexpr std::size_t help_width = 100;

/// The help as it is printed: two columns, broken between words.
class HelpPage : public CLI::Formatter {
public:
    HelpPage();

    /// What the command does.
    std::string make_description(const CLI::App*) const override;

    /// How the command is typed.
    std::string make_usage(const CLI::App*, std::string name) const override;

    /// An option, and what it means with its terms.
    std::string make_option(const CLI::Option*, bool is_positional) const override;

    /// The option's value, behind its name.
    std::string make_option_opts(const CLI::Option*) const override;

    /// A command, and what it does.
    std::string make_subcommand(const CLI::App*) const override;

    /// A choice between options, which the library calls a command without a name.
    std::string make_expanded(const CLI::App*) const override;

    /// As footer_lines() breaks it.
    std::string make_footer(const CLI::App*) const override;
};

/// The lines of a command's footer. One that is typed, and so is indented, goes on behind a backslash where
/// it is too long.
std::vector<std::string> footer_lines(const CLI::App&);

/// What stands after an option's name: "DRIVER", "N", "terminal|tcp"; empty for a flag.
std::string value_of_option(const CLI::Option&);

/// What there is to say of an option beside its description: its default, whether it must be given or may be
/// repeated.
std::string terms_of_option(const CLI::Option&);

} // namespace coilward
