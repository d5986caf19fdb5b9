#include "history/database.h"
#include "history/history.h"
#include "history/reading_words.h"

namespace coilward {
namespace {

/// Corrections that lead out of their visit, or forward.
constexpr auto stray_corrections = R"sql(
    SELECT later.uid FROM readings AS later JOIN readings AS former ON later.corrects = former.reading_id
    WHERE later.visit_id <> former.visit_id OR former.reading_id >= later.reading_id ORDER BY later.uid)sql";

} // namespace

std::vector<std::string> History::problems() const {
    auto problems = database_->damage();
    const auto look = [&](const auto& work) {
        try {
            work();
        } catch (const HistoryError& error) {
            problems.emplace_back(error.what());
        }
    };
    for (const SqlRow& row : database_->run(stray_corrections))
        problems.push_back("reading " + text_of(id_in(row[0])) + " corrects one of another visit");
    for (const Pickup& pickup : pickups()) {
        look([&] { changes_of(pickup.id); });
        for (const Visit& visit : visits_of(pickup.id))
            look([&] {
                readings_of(visit.id);
                verdicts_of(visit.id);
            });
        for (const Attachment& attachment : attachments_of(pickup.id))
            look([&] { content(attachment.content); });
    }
    return problems;
}

} // namespace coilward
