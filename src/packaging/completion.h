#pragma once

#include "packaging/described_command.h"

namespace coilward {

// What each shell is told of the program, so that it completes commands, options and their values.

std::string bash_completion(const DescribedCommand& program);
std::string zsh_completion(const DescribedCommand& program);
std::string fish_completion(const DescribedCommand& program);

/// What may stand for a value, by its name in the help.
enum class ValueKind {
    none,
    any,
    file,
    folder,
    choice, ///< "{terminal,tcp}"
    driver,
    coil_model,
    port,
};

ValueKind kind_of_value(const std::string& value);

/// The words of "{terminal,tcp}".
std::vector<std::string> choices_in(const std::string& value);

} // namespace coilward
