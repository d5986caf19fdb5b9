#include "serve/request_json.h"

#include <fmt/format.h>

namespace coilward {

std::optional<std::string> text_in(const Placed& request, const char* key) {
    constexpr std::size_t longest = 4000;
    const Placed text = member(request, key);
    if (!text.present()) return std::nullopt;
    if (!text.value->is_string()) complain(text, "a text");
    std::string found = text.value->get<std::string>();
    if (found.size() > longest) complain(text, fmt::format("a text of at most {} bytes", longest));
    return found;
}

} // namespace coilward
