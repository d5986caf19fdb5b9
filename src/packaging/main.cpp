// Writes manual pages and completions into a folder: they say what the program's help says.

#include "packaging/completion.h"
#include "packaging/manual_page.h"

#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>

#include <fmt/format.h>

namespace {

void write(const std::filesystem::path& file, const std::string& text) {
    std::filesystem::create_directories(file.parent_path());
    std::ofstream out(file, std::ios::binary);
    out << text;
    if (!out.flush()) throw std::runtime_error(fmt::format("{}: cannot be written", file.string()));
}

} // namespace

int main(int count, char** words) {
    using namespace coilward;
    if (count != 2) {
        fmt::print(stderr, "usage: {} FOLDER\n", words[0]);
        return 2;
    }
    try {
        const std::filesystem::path folder = words[1];
        const DescribedCommand program = described_program();
        for (const DescribedCommand* command : with_all_below(program))
            write(folder / "man" / (command->full_name("-") + ".1"),
                  manual_page(*command, program, COILWARD_VERSION));
        write(folder / "completions" / "coilward.bash", bash_completion(program));
        write(folder / "completions" / "_coilward", zsh_completion(program));
        write(folder / "completions" / "coilward.fish", fish_completion(program));
    } catch (const std::exception& error) {
        fmt::print(stderr, "{}: {}\n", words[0], error.what());
        return 1;
    }
    return 0;
}
