#include "cli/input.h"

#include "rules/own_rules.h"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <iostream>
#include <iterator>

#include <fmt/format.h>

namespace coilward {

std::string read_input(const std::string& file, std::string_view wanted) {
    if (file == "-") return {std::istreambuf_iterator<char>(std::cin), {}};
    const auto refuse = [&](const char* why) {
        throw BadInput(fmt::format("{}: cannot be read ({}); give the path of {}, or - for standard input",
                                   file, why, wanted));
    };
    if (std::filesystem::is_directory(file)) refuse("a folder");
    std::ifstream stream(file, std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(stream), {}};
    if (!stream.is_open() || stream.bad()) refuse(std::strerror(errno));
    return text;
}

Rules rules_of(const Session& session) {
    try {
        return load_rules(session.rules_folder, session.own_rules_folder);
    } catch (const BadRules& error) {
        throw BadInput(in_one_line(error.complaints, "coilward check-rules"));
    }
}

std::string in_one_line(const std::vector<Complaint>& complaints, std::string_view shows_all) {
    const std::size_t more = complaints.size() - 1;
    return fmt::format("{} ({}{} shows {})", complaints.front().headline(),
                       more == 0 ? "" : fmt::format("and {} more; ", more), shows_all,
                       more == 0 ? "the line" : "all");
}

} // namespace coilward
