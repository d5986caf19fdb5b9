#include "child_process.h"
#include "examples.h"
#include "refusal.h"
#include "temporary_folder.h"

#include <atomic>
#include <csignal>
#include <cstdlib>
#include <random>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/syscall.h>

namespace {

std::atomic<int> syncs = 0;

} // namespace

// The test's own, in place of the C library's, so that it sees what SQLite asks of the disk.
extern "C" int fdatasync(int file) {
    ++syncs;
    return static_cast<int>(syscall(SYS_fdatasync, file));
}

extern "C" int fsync(int file) {
    ++syncs;
    return static_cast<int>(syscall(SYS_fsync, file));
}

namespace coilward {
namespace {

using testing::dc_resistance;
using testing::TemporaryFolder;

/// The reading that is the n-th of its visit, with enough bytes to fill pages.
StoredReading reading(const Visit& visit, unsigned n) {
    auto made = testing::stored(visit, 256 + n, dc_resistance(6000.0 + n));
    made.meter = "bench-lcr";
    made.raw = std::string(n % 700, static_cast<char>('0' + n % 10));
    return made;
}

std::vector<std::string> problems_in(const std::filesystem::path& file) {
    const SQLite::Database database(file.string());
    std::vector<std::string> problems;
    SQLite::Statement integrity(database, "PRAGMA integrity_check");
    while (integrity.executeStep())
        if (const auto text = integrity.getColumn(0).getString(); text != "ok") problems.push_back(text);
    SQLite::Statement orphans(database, "PRAGMA foreign_key_check");
    while (orphans.executeStep())
        problems.push_back("orphan in " + orphans.getColumn(0).getString());
    return problems;
}

struct Durability : ::testing::Test {
    TemporaryFolder folder;
    Pickup pickup = History(folder.path()).add_pickup(testing::bridge());

    Visit begun_visit(unsigned n) {
        auto visit = testing::visit_of(pickup, n, "2026-03-02T10:00:00Z");
        History(folder.path()).begin_visit(visit);
        return visit;
    }
};

TEST_F(Durability, SyncsToTheDiskBeforeEveryAnswer) {
    History history(folder.path());
    const auto visit = testing::visit_of(pickup, 10, "2026-03-02T10:00:00Z");
    const auto syncs_of = [](const auto& work) {
        const int before = syncs;
        work();
        return syncs - before;
    };
    EXPECT_GE(syncs_of([&] { history.begin_visit(visit); }), 1);
    EXPECT_GE(syncs_of([&] { history.append_reading(reading(visit, 1)); }), 1);
    EXPECT_GE(syncs_of([&] { history.append_reading(reading(visit, 2)); }), 1);
    EXPECT_GE(syncs_of([&] { history.store_verdict(testing::verdict(visit, 30, "slug", true)); }), 1);
    EXPECT_GE(syncs_of([&] { history.add_pickup(testing::neck()); }), 1);
    pickup.owner = "someone else";
    EXPECT_GE(syncs_of([&] { history.edit_pickup(pickup, testing::id(70), visit.at); }), 1);
    EXPECT_EQ(syncs_of([&] { history.readings_of(visit.id); }), 0) << "the test counts something else";
}

/// Appends readings without end and tells each, when it is kept, by one byte.
pid_t start_appending(const TemporaryFolder& folder, const Visit& visit, testing::Line& kept) {
    return testing::start_child([&] {
        kept.close_reading();
        History history(folder.path());
        for (unsigned n = 0;; ++n) {
            history.append_reading(reading(visit, n));
            kept.say("k");
        }
    });
}

/// 100, or what COILWARD_KILLS says: `COILWARD_KILLS=1000 history_tests --gtest_filter=*WhenKilled`.
unsigned kills_wanted() {
    const char* told = std::getenv("COILWARD_KILLS");
    return told == nullptr ? 100 : static_cast<unsigned>(std::stoul(told));
}

TEST_F(Durability, KeepsEveryAcknowledgedReadingWhenKilled) {
    const unsigned kills = kills_wanted();
    std::mt19937 random(20260302);
    std::uniform_int_distribution<unsigned> how_many(1, 30);
    std::uniform_int_distribution<unsigned> turns(0, 500'000); // up to about one reading's time
    for (unsigned k = 0; k < kills; ++k) {
        const auto visit = begun_visit(10 + k);
        testing::Line line;
        const pid_t child = start_appending(folder, visit, line);
        line.close_writing();
        char byte = 0;
        unsigned acknowledged = 0;
        for (const unsigned wanted = how_many(random); acknowledged < wanted && line.hear(byte);)
            ++acknowledged;
        for (std::atomic<unsigned> turn = turns(random); turn > 0;)
            --turn; // into the midst of the next one
        kill(child, SIGKILL);
        acknowledged += static_cast<unsigned>(line.hear_all().size());
        ASSERT_TRUE(WIFSIGNALED(testing::end_of(child)));

        const auto readings = History(folder.path()).readings_of(visit.id);
        ASSERT_GE(acknowledged, 1U);
        // The one that was being written may be there, whole, or not.
        ASSERT_THAT(readings.size(), ::testing::AnyOf(acknowledged, acknowledged + 1));
        for (unsigned n = 0; n < readings.size(); ++n)
            ASSERT_EQ(readings[n], reading(visit, n));
        ASSERT_THAT(problems_in(folder.file()), ::testing::IsEmpty());
    }
}

/// So many programs open a history that is not there yet and write to it, all at once.
void start_at_once(unsigned programs, const TemporaryFolder& empty, unsigned readings_each) {
    testing::Line start;
    std::vector<pid_t> children;
    for (unsigned p = 0; p < programs; ++p)
        children.push_back(testing::start_child([&] {
            start.close_writing();
            char byte = 0;
            start.hear(byte); // the end, when the parent lets go
            History history(empty.path());
            auto own = testing::neck();
            own.id = testing::id(1000 + p);
            own = history.add_pickup(own);
            const auto visit = testing::visit_of(own, 2000 + p, "2026-03-02T10:00:00Z");
            history.begin_visit(visit);
            for (unsigned n = 0; n < readings_each; ++n)
                history.append_reading(reading(visit, n));
        }));
    start.close_writing();
    for (const auto child : children)
        EXPECT_EQ(testing::end_of(child), 0);
}

TEST(SeveralPrograms, StartAndWriteAtOnce) {
    constexpr unsigned programs = 8;
    constexpr unsigned readings_each = 10;
    for (int round = 0; round < 10; ++round) {
        const TemporaryFolder folder;
        start_at_once(programs, folder, readings_each);
        const History history(folder.path());
        ASSERT_EQ(history.pickups().size(), programs);
        for (unsigned p = 0; p < programs; ++p)
            ASSERT_EQ(history.readings_of(testing::id(2000 + p)).size(), readings_each);
        ASSERT_THAT(problems_in(folder.file()), ::testing::IsEmpty());
    }
}

TEST_F(Durability, SaysWhenAnotherProgramHoldsTheHistory) {
    const auto visit = begun_visit(10);
    History history(folder.path(), {.busy_timeout = std::chrono::milliseconds(50)});
    testing::Line held;
    testing::Line release;
    const pid_t other = testing::start_child([&] {
        release.close_writing();
        SQLite::Database database(folder.file().string(), SQLite::OPEN_READWRITE);
        database.exec("BEGIN IMMEDIATE");
        held.say("h");
        char byte = 0;
        release.hear(byte); // the end, when the parent lets go
    });
    char byte = 0;
    ASSERT_TRUE(held.hear(byte));
    EXPECT_EQ(testing::refusal<HistoryError>([&] { history.append_reading(reading(visit, 0)); }),
              folder.file().string() +
                  ": another program is writing to this history; wait until it is done, or close it");
    EXPECT_THAT(history.readings_of(visit.id), ::testing::IsEmpty()) << "reading goes on meanwhile";
    EXPECT_THAT(History(folder.path()).pickups(), ::testing::ElementsAre(pickup)) << "and so does opening";
    release.close_writing();
    testing::end_of(other);
    history.append_reading(reading(visit, 0));
    EXPECT_THAT(history.readings_of(visit.id), ::testing::ElementsAre(reading(visit, 0)));
}

} // namespace
} // namespace coilward
