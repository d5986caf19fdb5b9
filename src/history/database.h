#pragma once

#include "history/sql_values.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// One connection to where a history lies: a file (SqliteDatabase) or a server (PostgresDatabase). The
/// history's own statements are written once, in the SQL that both understand, with `$1`, `$2`… numbered as
/// they first appear; what differs is behind this. Every function throws HistoryError. Not to be shared by
/// threads.
class Database {
public:
    Database() = default;
    virtual ~Database() = default;
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    /// The file, or the server and database without a password: what messages name.
    virtual const std::string& place() const = 0;

    /// Runs one statement and returns the rows that it answers with. Outside of a Transaction, what it writes
    /// is on the disk when it returns.
    virtual std::vector<SqlRow> run(std::string_view sql, const SqlValues& values = {}) = 0;

    /// What the database itself finds wrong with what it holds, one line each.
    virtual std::vector<std::string> damage() = 0;

    /// Writes itself into a new file of its own kind, whole or not at all; false where there is no such file.
    virtual bool copy_to(const std::filesystem::path& new_file) = 0;

protected:
    friend class Transaction;

    /// Waits until no other program writes, no longer than HistoryOptions say.
    virtual void begin() = 0;

    /// Keeps what was written since begin(), on the disk when it returns.
    virtual void commit() = 0;

    /// Undoes it; that there is nothing to undo is no error.
    virtual void roll_back() noexcept = 0;

private:
    int depth_ = 0; ///< of transactions within each other; the outermost one counts
};

/// All that is written between its beginning and commit() is kept, or, where it ends without, nothing of it.
/// One within another is part of the outer one.
class Transaction {
public:
    /// Begins; what is not committed is rolled back with it.
    explicit Transaction(Database&);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;

    /// On the disk when it returns, where this is the outermost.
    void commit();

private:
    Database& database_;
    bool open_ = true;
};

} // namespace coilward
