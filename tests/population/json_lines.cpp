#include "json_lines.h"

#include <fstream>
#include <stdexcept>
#include <string>

namespace population {

std::vector<nlohmann::ordered_json> json_lines(const std::filesystem::path& path) {
    std::ifstream file(path);
    if (!file) throw std::runtime_error(path.string() + ": cannot be read");
    std::vector<nlohmann::ordered_json> lines;
    for (std::string line; std::getline(file, line);) {
        if (line.empty()) continue;
        auto document = nlohmann::ordered_json::parse(line, nullptr, false);
        if (document.is_discarded())
            throw std::runtime_error(path.string() + ":" + std::to_string(lines.size() + 1) + ": no JSON");
        lines.push_back(std::move(document));
    }
    return lines;
}

} // namespace population
