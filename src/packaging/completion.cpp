#include "packaging/completion.h"

#include <map>
#include <sstream>

namespace coilward {

ValueKind kind_of_value(const std::string& value) {
    static const std::map<std::string, ValueKind> kinds{
        {"", ValueKind::none},         {"FILE", ValueKind::file},      {"DIR", ValueKind::folder},
        {"FOLDER", ValueKind::folder}, {"HISTORY", ValueKind::folder}, {"FROM", ValueKind::folder},
        {"TO", ValueKind::folder},     {"DRIVER", ValueKind::driver},  {"MODEL", ValueKind::coil_model},
        {"PORT", ValueKind::port}};
    if (value.starts_with('{')) return ValueKind::choice;
    const auto found = kinds.find(value);
    return found == kinds.end() ? ValueKind::any : found->second;
}

std::vector<std::string> choices_in(const std::string& value) {
    std::vector<std::string> choices;
    std::istringstream words(value.substr(1, value.size() - 2));
    for (std::string word; std::getline(words, word, ',');)
        choices.push_back(word);
    return choices;
}

} // namespace coilward
