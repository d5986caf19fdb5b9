#pragma once

#include "guide/person.h"

#include <cstdio>
#include <iosfwd>

namespace coilward {

/// "Series inductance at 1 kHz, with lcr-fetch-ab", what to set and where the probes go, over the lines of a
/// terminal.
std::string instruction_page(const Instruction&);

/// A person at the keyboard: Enter for ready, s to skip, q to stop; the end of the input stops too.
class TerminalPerson : public Person {
public:
    /// Both must outlive it.
    TerminalPerson(std::istream& in, std::FILE* out) : in_(in), out_(out) {}

    Reply place(const Instruction&) override;
    Told tell(const Instruction&) override;
    Reply mend(const std::string& trouble) override;
    void hear(const std::string&) override;

private:
    std::string ask(const char* question);
    Reply ask_whether_ready(const char* question);

    std::istream& in_;
    std::FILE* out_;
};

/// Nobody who could be waited for: the probes stay where they are, across the leads, and what a person would
/// have to do or tell is left out.
class AbsentPerson : public Person {
public:
    /// Which must outlive it.
    explicit AbsentPerson(std::FILE* out) : out_(out) {}

    Reply place(const Instruction&) override;
    Told tell(const Instruction&) override;
    Reply mend(const std::string& trouble) override;
    void hear(const std::string&) override;

private:
    std::FILE* out_;
};

} // namespace coilward
