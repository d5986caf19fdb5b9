#include "history/database.h"
#include "history/history.h"
#include "history/reading_words.h"
#include "history/row_lookup.h"

#include <fmt/format.h>

namespace coilward {

void History::begin_visit(const Visit& visit) {
    require_id(*database_, "visit", visit.id);
    Transaction transaction(*database_);
    database_->run(
        "INSERT INTO visits (uid, pickup_id, at_ms, stage, rewound, notes) VALUES ($1, $2, $3, $4, $5, $6)",
        {sql_of(visit.id), pickup_row(*database_, visit.pickup), sql_of(visit.at), visit.stage,
         sql_of(visit.rewound), visit.notes});
    transaction.commit();
}

std::vector<Visit> History::visits_of(const Id& pickup) const {
    std::vector<Visit> visits;
    for (const SqlRow& row : database_->run(R"sql(
            SELECT uid, at_ms, stage, rewound, notes FROM visits WHERE pickup_id = $1 ORDER BY at_ms, uid)sql",
                                            {pickup_row(*database_, pickup)}))
        visits.push_back({.id = id_in(row[0]),
                          .pickup = pickup,
                          .at = moment_in(row[1]),
                          .stage = text_in(row[2]),
                          .rewound = truth_in(row[3]),
                          .notes = text_in(row[4])});
    return visits;
}

std::vector<Visit> History::latest_visits(std::size_t at_most) const {
    std::vector<Visit> visits;
    for (const SqlRow& row : database_->run(R"sql(
            SELECT visits.uid, at_ms, stage, rewound, visits.notes, pickups.uid FROM visits
            JOIN pickups ON pickups.pickup_id = visits.pickup_id
            ORDER BY at_ms DESC, visits.uid LIMIT $1)sql",
                                            {static_cast<std::int64_t>(at_most)}))
        visits.push_back({.id = id_in(row[0]),
                          .pickup = id_in(row[5]),
                          .at = moment_in(row[1]),
                          .stage = text_in(row[2]),
                          .rewound = truth_in(row[3]),
                          .notes = text_in(row[4])});
    return visits;
}

void History::store_verdict(const StoredVerdict& verdict) {
    require_id(*database_, "verdict", verdict.id);
    if (!(verdict.probability >= 0.0 && verdict.probability <= 1.0))
        throw HistoryError(
            fmt::format("{}: a verdict with the probability {} cannot be kept; it must be 0 to 1", place(),
                        verdict.probability));
    Transaction transaction(*database_);
    database_->run(R"sql(
        INSERT INTO verdicts (uid, visit_id, coil, at_ms, fault, probability, decided, healthy, document)
        VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9))sql",
                   {sql_of(verdict.id), visit_row(*database_, verdict.visit), verdict.coil,
                    sql_of(verdict.at), verdict.fault, verdict.probability, sql_of(verdict.decided),
                    sql_of(verdict.healthy), verdict.document});
    transaction.commit();
}

std::vector<StoredVerdict> History::verdicts_of(const Id& visit) const {
    std::vector<StoredVerdict> verdicts;
    for (const SqlRow& row : database_->run(R"sql(
            SELECT uid, coil, at_ms, fault, probability, decided, healthy, document FROM verdicts
            WHERE visit_id = $1 ORDER BY at_ms, uid)sql",
                                            {visit_row(*database_, visit)}))
        verdicts.push_back({.id = id_in(row[0]),
                            .visit = visit,
                            .coil = text_in(row[1]),
                            .at = moment_in(row[2]),
                            .fault = text_in(row[3]),
                            .probability = *number_in(row[4]),
                            .decided = truth_in(row[5]),
                            .healthy = truth_in(row[6]),
                            .document = text_in(row[7])});
    return verdicts;
}

} // namespace coilward
