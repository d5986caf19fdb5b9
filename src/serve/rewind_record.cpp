#include "serve/rewind_record.h"

#include "guide/visit_record.h"
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

RewindRecord rewind_record(const History& history, const Pickup& pickup, const Rules& rules,
                           const std::string& coil, const RecordPeople& people) {
    const CoilModel* model = rules.coil_model(coil_model_of(pickup, coil));
    const auto visits = history.visits_of(pickup.id);
    if (!model)
        throw CannotExamine(fmt::format("{}: this coil has no coil model, so no limits", pickup.name));
    if (visits.empty()) throw CannotExamine(fmt::format("{}: nothing was read of it yet", pickup.name));
    const auto readings = current_readings(history.readings_of(visits.back().id));
    const auto limits =
        at_frequencies_read(requirements_of(*model), readings, coil, *model, rules.allowed(*model));
    const Confirmation confirmation =
        confirm(pickup, visits.back(), coil, readings, limits, {.bench = rules.bench_readings}, model);
    RewindRecord record{.page = confirmation_record(confirmation, people), .policy = {}};
    record.policy = policy_for(record.page);
    return record;
}

} // namespace coilward
