#include "history/upkeep.h"

#include "history/store_error.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <fmt/format.h>

namespace coilward {
namespace {

void add_answers(const SQLite::Database& database, const char* question, std::vector<std::string>& problems) {
    SQLite::Statement rows(database, question);
    while (rows.executeStep())
        if (auto text = rows.getColumn(0).getString(); text != "ok") problems.push_back(std::move(text));
}

/// Every value once through the program's own eyes.
void read_everything(const History& history, std::vector<std::string>& problems) {
    for (const Pickup& pickup : history.pickups())
        for (const Visit& visit : history.visits_of(pickup.id))
            try {
                history.readings_of(visit.id);
                history.verdicts_of(visit.id);
            } catch (const HistoryError& error) {
                problems.emplace_back(error.what());
            }
}

} // namespace

void back_up(const History& history, const std::filesystem::path& new_file) {
    if (std::filesystem::exists(new_file))
        throw HistoryError(fmt::format("{}: is there already; choose a name that is free, or move it away",
                                       new_file.string()));
    explaining(new_file, [&] {
        SQLite::Database source(history.file().string(), SQLite::OPEN_READWRITE, 5000);
        SQLite::Statement copy(source, "VACUUM INTO ?");
        copy.bind(1, new_file.string());
        copy.exec();
    });
}

std::vector<std::string> problems_in(const History& history) {
    std::vector<std::string> problems;
    explaining(history.file(), [&] {
        const SQLite::Database database(history.file().string());
        add_answers(database, "PRAGMA integrity_check", problems);
        add_answers(database, R"sql(SELECT 'a row of ' || "table" || ' belongs to no row of ' || parent
                                    FROM pragma_foreign_key_check)sql",
                    problems);
        add_answers(database,
                    R"sql(SELECT 'reading ' || lower(hex(later.uid)) || ' corrects one of another visit'
                                    FROM readings AS later JOIN readings AS former ON later.corrects = former.reading_id
                                    WHERE later.visit_id <> former.visit_id OR former.reading_id >= later.reading_id)sql",
                    problems);
    });
    read_everything(history, problems);
    return problems;
}

} // namespace coilward
