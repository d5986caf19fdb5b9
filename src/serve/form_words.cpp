#include "serve/form_words.h"

namespace coilward {

std::string without_dashes(std::string words) {
    const std::string dashes = "--";
    for (std::size_t at = words.find(dashes); at != std::string::npos; at = words.find(dashes, at)) {
        const bool begins_an_option = at == 0 || words[at - 1] == ' ';
        if (begins_an_option) words.erase(at, dashes.size());
        if (!begins_an_option) at += dashes.size();
    }
    return words;
}

} // namespace coilward
