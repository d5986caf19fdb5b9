#include "history/history.h"
#include "history/row_lookup.h"
#include "history/sql_values.h"
#include "history/store_error.h"

#include <SQLiteCpp/Database.h>
#include <fmt/format.h>

namespace coilward {

void History::begin_visit(const Visit& visit) {
    require_id(file_, "visit", visit.id);
    explaining(file_, [&] {
        SQLite::Statement insert(*database_, R"sql(
            INSERT INTO visits (uid, pickup_id, at_ms, stage, rewound, notes) VALUES (?, ?, ?, ?, ?, ?))sql");
        bind_id(insert, 1, visit.id);
        insert.bind(2, pickup_row(*database_, file_, visit.pickup));
        insert.bind(3, milliseconds_of(visit.at));
        insert.bind(4, visit.stage);
        insert.bind(5, visit.rewound ? 1 : 0);
        insert.bind(6, visit.notes);
        insert.exec();
    });
}

std::vector<Visit> History::visits_of(const Id& pickup) const {
    return explaining(file_, [&] {
        SQLite::Statement rows(*database_, R"sql(
            SELECT uid, at_ms, stage, rewound, notes FROM visits WHERE pickup_id = ? ORDER BY at_ms, uid)sql");
        rows.bind(1, pickup_row(*database_, file_, pickup));
        std::vector<Visit> visits;
        while (rows.executeStep())
            visits.push_back({.id = id_in(rows.getColumn(0)),
                              .pickup = pickup,
                              .at = moment_in(rows.getColumn(1)),
                              .stage = rows.getColumn(2).getString(),
                              .rewound = rows.getColumn(3).getInt() != 0,
                              .notes = rows.getColumn(4).getString()});
        return visits;
    });
}

void History::store_verdict(const StoredVerdict& verdict) {
    require_id(file_, "verdict", verdict.id);
    if (!(verdict.probability >= 0.0 && verdict.probability <= 1.0))
        throw HistoryError(
            fmt::format("{}: a verdict with the probability {} cannot be kept; it must be 0 to 1",
                        file_.string(), verdict.probability));
    explaining(file_, [&] {
        SQLite::Statement insert(*database_, R"sql(
            INSERT INTO verdicts (uid, visit_id, coil, at_ms, fault, probability, decided, healthy, document)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?))sql");
        bind_id(insert, 1, verdict.id);
        insert.bind(2, visit_row(*database_, file_, verdict.visit));
        insert.bind(3, verdict.coil);
        insert.bind(4, milliseconds_of(verdict.at));
        insert.bind(5, verdict.fault);
        insert.bind(6, verdict.probability);
        insert.bind(7, verdict.decided ? 1 : 0);
        insert.bind(8, verdict.healthy ? 1 : 0);
        insert.bind(9, verdict.document);
        insert.exec();
    });
}

std::vector<StoredVerdict> History::verdicts_of(const Id& visit) const {
    return explaining(file_, [&] {
        SQLite::Statement rows(*database_, R"sql(
            SELECT uid, coil, at_ms, fault, probability, decided, healthy, document FROM verdicts
            WHERE visit_id = ? ORDER BY at_ms, verdict_id)sql");
        rows.bind(1, visit_row(*database_, file_, visit));
        std::vector<StoredVerdict> verdicts;
        while (rows.executeStep())
            verdicts.push_back({.id = id_in(rows.getColumn(0)),
                                .visit = visit,
                                .coil = rows.getColumn(1).getString(),
                                .at = moment_in(rows.getColumn(2)),
                                .fault = rows.getColumn(3).getString(),
                                .probability = rows.getColumn(4).getDouble(),
                                .decided = rows.getColumn(5).getInt() != 0,
                                .healthy = rows.getColumn(6).getInt() != 0,
                                .document = rows.getColumn(7).getString()});
        return verdicts;
    });
}

} // namespace coilward
