#pragma once

#include "history/database.h"
#include "history/history.h"

#include <map>
#include <memory>

namespace coilward {

struct PostgresSession;

/// A database on a PostgreSQL server. Every commit is synced to the server's disk before it returns.
class PostgresDatabase final : public Database {
public:
    /// Connects, and makes the tables where there are none. Throws HistoryError.
    PostgresDatabase(const std::string& address, HistoryOptions);
    ~PostgresDatabase() override;

    const std::string& place() const override { return place_; }

    std::vector<SqlRow> run(std::string_view sql, const SqlValues& values) override;
    std::vector<std::string> damage() override;

    bool copy_to(const std::filesystem::path&) override { return false; }

protected:
    void begin() override;
    void commit() override;
    void roll_back() noexcept override;

private:
    const std::string& prepared(std::string_view sql);
    void make_ready(HistoryOptions);

    std::string place_;
    std::unique_ptr<PostgresSession> session_;
    std::map<std::string, std::string, std::less<>>
        statements_; ///< SQL and the name under which it is prepared
};

} // namespace coilward
