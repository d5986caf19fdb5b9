#include "serve/rewind_record.h"

#include "history/attachment.h"
#include "history/base64.h"
#include "serve/examination_desk.h"

#include <fmt/format.h>

namespace coilward {
namespace {

std::string policy_for(const std::string& page) {
    constexpr std::string_view opening = "<style>";
    const auto from = page.find(opening);
    const auto to = page.find("</style>");
    if (from == std::string::npos || to == std::string::npos) return "default-src 'none'";
    const auto style = std::string_view(page).substr(from + opening.size(), to - from - opening.size());
    const ContentHash hash = content_hash(style);
    const std::string bytes(hash.bytes.begin(), hash.bytes.end());
    return fmt::format("default-src 'none'; style-src 'sha256-{}'; base-uri 'none'; frame-ancestors 'none'",
                       in_base64(bytes));
}

} // namespace

Confirmation latest_confirmed(const History& history, const Pickup& pickup, const Rules& rules,
                              const ConfirmationWords& words) {
    if (history.visits_of(pickup.id).empty())
        throw CannotExamine(fmt::format("{}: nothing was read of it yet", pickup.name));
    return confirm(words, history, pickup, rules);
}

RewindRecord rewind_record(const Confirmation& confirmation, const RecordPeople& people) {
    RewindRecord record{.page = confirmation_record(confirmation, people), .policy = {}};
    record.policy = policy_for(record.page);
    return record;
}

} // namespace coilward
