#pragma once

#include "packaging/described_command.h"

namespace coilward {

/// What bash is told of the program, so that it completes commands, options and their values.
std::string bash_completion(const DescribedCommand& program);

/// The same for zsh.
std::string zsh_completion(const DescribedCommand& program);

/// The same for fish.
std::string fish_completion(const DescribedCommand& program);

/// What may stand for a value, by its name in the help.
enum class ValueKind {
    none, ///< a flag: no value
    any,  ///< nothing that could be completed
    file,
    folder,
    choice, ///< "{terminal,tcp}"
    driver,
    coil_model,
    port,
};

/// By what the help calls the value: "FILE", "DRIVER"; `any` for a name that stands for no kind.
ValueKind kind_of_value(const std::string& value);

/// The words of "{terminal,tcp}".
std::vector<std::string> choices_in(const std::string& value);

} // namespace coilward
