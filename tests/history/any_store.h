#pragma once

#include "examples.h"
#include "temporary_folder.h"

#include <cstdlib>
#include <ostream>

#include <SQLiteCpp/Database.h>
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <pqxx/pqxx>
#include <unistd.h>

namespace coilward::testing {

/// Where a history can lie.
enum class Kind { sqlite, postgresql };

inline void PrintTo(Kind kind, std::ostream* out) {
    *out << (kind == Kind::sqlite ? "sqlite" : "postgresql");
}

/// The server that tests/run starts; empty where there is none.
inline std::string test_server() {
    const char* told = std::getenv("COILWARD_TEST_POSTGRESQL");
    return told == nullptr ? "" : told;
}

inline std::string why_no_server() {
    const char* told = std::getenv("COILWARD_TEST_POSTGRESQL_LACKS");
    return told == nullptr || *told == '\0' ? "COILWARD_TEST_POSTGRESQL names no server; tests/run starts one"
                                            : told;
}

/// A new empty place for a history: a folder or a database, which is gone at the end.
class Store {
public:
    explicit Store(Kind kind) : on_server_(kind == Kind::postgresql && !test_server().empty()) {
        if (!on_server_) return;
        static int count = 0;
        name_ = fmt::format("coilward_{}_{}", getpid(), ++count);
        on_server("CREATE DATABASE " + name_);
    }

    ~Store() {
        if (on_server_) on_server("DROP DATABASE " + name_ + " WITH (FORCE)");
    }

    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;

    /// As History takes it.
    std::string address() const {
        if (!on_server_) return folder_.path();
        auto address = test_server();
        return address.replace(address.find("/postgres?") + 1, 8, name_);
    }

    /// As messages name it.
    std::string place() const {
        return on_server_ ? address().substr(0, address().find('?')) : folder_.file().string();
    }

    /// What another program is told that gives this SQL statement; "not refused" where it is not.
    std::string told(const std::string& sql) const {
        try {
            if (on_server_) {
                pqxx::connection connection(address());
                pqxx::nontransaction(connection).exec(sql);
            } else {
                SQLite::Database(folder_.file().string(), SQLite::OPEN_READWRITE).exec(sql);
            }
        } catch (const std::exception& error) {
            std::string text = error.what();
            text = text.substr(0, text.find('\n'));
            return text.starts_with("ERROR:  ") ? text.substr(8) : text;
        }
        return "not refused";
    }

private:
    static void on_server(const std::string& sql) {
        pqxx::connection connection(test_server());
        pqxx::nontransaction(connection).exec(sql);
    }

    bool on_server_;
    std::string name_;
    TemporaryFolder folder_;
};

/// What holds for a history wherever it lies. Without a server, the tests for one are skipped.
struct AnyStore : ::testing::TestWithParam<Kind> {
    Store store{GetParam()};

    void SetUp() override {
        if (GetParam() == Kind::postgresql && test_server().empty()) GTEST_SKIP() << why_no_server();
    }
};

/// The suite for both kinds: "Sqlite/Readings.…" would hide the suite's name, so that the kind stands at the
/// end.
inline std::string name_of_kind(const ::testing::TestParamInfo<Kind>& info) {
    return info.param == Kind::sqlite ? "sqlite" : "postgresql";
}

} // namespace coilward::testing

#define COILWARD_FOR_ANY_STORE(Suite)                                                                        \
    INSTANTIATE_TEST_SUITE_P(                                                                                \
        In, Suite,                                                                                           \
        ::testing::Values(::coilward::testing::Kind::sqlite, ::coilward::testing::Kind::postgresql),         \
        ::coilward::testing::name_of_kind)
