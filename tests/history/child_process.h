#pragma once

#include <cerrno>
#include <exception>
#include <functional>
#include <iostream>
#include <string>
#include <system_error>
#include <vector>

#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>

namespace coilward::testing {

/// A pipe over which one process tells another something.
class Line {
public:
    /// Both ends; each process closes the one that it does not use.
    Line() {
        if (pipe(ends_) != 0) throw std::system_error(errno, std::generic_category(), "pipe");
    }

    ~Line() {
        close_reading();
        close_writing();
    }

    Line(const Line&) = delete;
    Line& operator=(const Line&) = delete;

    void close_reading() { close_end(0); }

    void close_writing() { close_end(1); }

    /// What the process writes to the descriptor comes here from now on.
    void take_over(int descriptor) const { dup2(ends_[1], descriptor); }

    void say(const std::string& text) const {
        for (std::size_t said = 0; said < text.size();) {
            const auto count = write(ends_[1], text.data() + said, text.size() - said);
            if (count < 0) throw std::system_error(errno, std::generic_category(), "write");
            said += static_cast<std::size_t>(count);
        }
    }

    /// Waits for one byte; false at the end, when nobody can write any more.
    bool hear(char& byte) const { return read(ends_[0], &byte, 1) == 1; }

    /// All that comes until the end.
    std::string hear_all() const {
        std::string text;
        for (char byte = 0; hear(byte);)
            text += byte;
        return text;
    }

private:
    void close_end(int end) {
        if (ends_[end] >= 0) close(ends_[end]);
        ends_[end] = -1;
    }

    int ends_[2] = {-1, -1};
};

/// Starts a child that does the work and ends, with status 0 unless it threw.
inline pid_t start_child(const std::function<void()>& work) {
    const pid_t child = fork();
    if (child != 0) return child;
    try {
        work();
        _exit(0);
    } catch (const std::exception& error) {
        std::cerr << "child: " << error.what() << std::endl;
        _exit(1);
    }
}

/// The wait status of the child, when it has ended.
inline int end_of(pid_t child) {
    int status = 0;
    waitpid(child, &status, 0);
    return status;
}

/// What a child that does the work returns as text, or what it threw.
inline std::string said_by_child(const std::function<std::string()>& work) {
    Line line;
    const pid_t child = start_child([&] {
        line.close_reading();
        try {
            line.say(work());
        } catch (const std::exception& error) {
            line.say(error.what());
        }
    });
    line.close_writing();
    auto said = line.hear_all();
    end_of(child);
    return said;
}

/// How a program ended and what it wrote.
struct ProgramEnd {
    int exit_code = -1;
    std::string out;
    std::string err;

    friend bool operator==(const ProgramEnd&, const ProgramEnd&) = default;
};

inline void PrintTo(const ProgramEnd& end, std::ostream* stream) {
    *stream << end.exit_code << ", out: " << end.out << ", err: " << end.err;
}

/// In a child: becomes the program, with these words after its name.
[[noreturn]] inline void become_program(const std::string& program, std::vector<std::string> words) {
    words.insert(words.begin(), program);
    std::vector<char*> arguments;
    for (auto& word : words)
        arguments.push_back(word.data());
    arguments.push_back(nullptr);
    execv(program.c_str(), arguments.data());
    throw std::system_error(errno, std::generic_category(), program);
}

/// Runs a program; what it writes must be less than a pipe holds.
inline ProgramEnd run_program(const std::string& program, std::vector<std::string> words) {
    Line out;
    Line err;
    const pid_t child = start_child([&] {
        out.take_over(STDOUT_FILENO);
        err.take_over(STDERR_FILENO);
        become_program(program, words);
    });
    out.close_writing();
    err.close_writing();
    ProgramEnd end{.out = out.hear_all(), .err = err.hear_all()};
    const int status = end_of(child);
    if (WIFEXITED(status)) end.exit_code = WEXITSTATUS(status);
    return end;
}

} // namespace coilward::testing
