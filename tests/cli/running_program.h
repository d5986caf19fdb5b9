#pragma once

#include "history/child_process.h"

#include <csignal>

namespace coilward::testing {

/// A program that runs until it is interrupted, at the latest when this goes.
class RunningProgram {
public:
    RunningProgram(const std::string& program, std::vector<std::string> words) {
        child_ = start_child([&] {
            out_.close_reading();
            out_.take_over(STDOUT_FILENO);
            become_program(program, words);
        });
        out_.close_writing();
    }

    ~RunningProgram() { interrupt(); }

    RunningProgram(const RunningProgram&) = delete;
    RunningProgram& operator=(const RunningProgram&) = delete;

    /// The next line that it writes, awaited.
    std::string line() const {
        std::string text;
        for (char byte = 0; out_.hear(byte) && byte != '\n';)
            text += byte;
        return text;
    }

    /// Its wait status.
    int interrupt() {
        if (child_ <= 0) return status_;
        ::kill(child_, SIGINT);
        status_ = end_of(child_);
        child_ = 0;
        return status_;
    }

private:
    Line out_;
    pid_t child_ = 0;
    int status_ = 0;
};

} // namespace coilward::testing
