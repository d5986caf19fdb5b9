#include "child_process.h"
#include "examples.h"
#include "temporary_folder.h"

#include <csignal>
#include <fstream>

#include <gtest/gtest.h>
#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>

/// What becomes of a history on a disk that is full, limited or not to be written. Each in a process of its
/// own, because limits, mounts and users cannot be given back.
namespace coilward {
namespace {

using testing::said_by_child;
using testing::TemporaryFolder;

StoredReading big_reading(const Visit& visit, unsigned n) {
    auto reading = testing::stored(visit, 256 + n, testing::dc_resistance(6000.0 + n));
    reading.raw = std::string(8000, 'x');
    return reading;
}

struct Appended {
    unsigned kept = 0;
    std::string refusal;
};

constexpr unsigned more_than_fit = 2000;

/// Appends until the history refuses.
Appended append_until_refused(History& history, const Visit& visit) {
    Appended appended;
    try {
        for (; appended.kept < more_than_fit; ++appended.kept)
            history.append_reading(big_reading(visit, appended.kept));
    } catch (const HistoryError& error) {
        appended.refusal = error.what();
    }
    return appended;
}

/// Fills the disk, makes room, goes on; says what the refusal was, or what was not as it should be.
std::string fill_and_go_on(const std::filesystem::path& folder, const std::function<void()>& make_room) {
    History history(folder);
    const auto pickup = history.add_pickup(testing::bridge());
    const auto visit = testing::visit_of(pickup, 10, "2026-03-02T10:00:00Z");
    history.begin_visit(visit);
    const auto [kept, refusal] = append_until_refused(history, visit);
    if (kept < 3) return "it was full too soon: " + refusal;
    if (history.readings_of(visit.id).size() != kept) return "what was kept is not there";
    make_room();
    history.append_reading(big_reading(visit, kept));
    const auto readings = History(folder).readings_of(visit.id);
    if (readings.size() != kept + 1) return "it does not go on";
    for (unsigned n = 0; n < readings.size(); ++n)
        if (readings[n] != big_reading(visit, n)) return "a reading is not what it was";
    return refusal;
}

void limit_file_size(rlim_t bytes) {
    rlimit limit{};
    getrlimit(RLIMIT_FSIZE, &limit);
    limit.rlim_cur = bytes;
    setrlimit(RLIMIT_FSIZE, &limit);
}

TEST(Disk, ThatRefusesToGrowAFileLosesNothingThatWasKept) {
    const TemporaryFolder folder;
    const auto said = said_by_child([&] {
        signal(SIGXFSZ, SIG_IGN); // so that writing fails instead
        limit_file_size(400'000);
        return fill_and_go_on(folder.path(), [] { limit_file_size(RLIM_INFINITY); });
    });
    EXPECT_EQ(
        said,
        folder.file().string() +
            ": the disk would not read or write (disk I/O error); check its free space, its quota and its "
            "health, and do it again (what was kept before is safe)");
}

/// A file system of that size in memory, seen by this process alone. False where the system does not allow
/// it.
bool mount_small_disk(const std::filesystem::path& folder, const char* options) {
    const auto user = getuid();
    const auto group = getgid();
    if (unshare(CLONE_NEWUSER | CLONE_NEWNS) != 0) return false;
    std::ofstream("/proc/self/setgroups") << "deny";
    std::ofstream("/proc/self/uid_map") << "0 " << user << " 1";
    std::ofstream("/proc/self/gid_map") << "0 " << group << " 1";
    if (mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0) return false;
    return mount("small-disk", folder.c_str(), "tmpfs", 0, options) == 0;
}

TEST(Disk, ThatIsFullLosesNothingThatWasKept) {
    const TemporaryFolder folder;
    const auto said = said_by_child([&]() -> std::string {
        if (!mount_small_disk(folder.path(), "size=800k")) return "no mounting";
        return fill_and_go_on(folder.path(), [&] {
            if (mount("small-disk", folder.path().c_str(), "tmpfs", MS_REMOUNT, "size=8m") != 0)
                throw std::system_error(errno, std::generic_category(), "remount");
        });
    });
    if (said == "no mounting") GTEST_SKIP() << "this system lets no user mount a small file system";
    EXPECT_EQ(said, folder.file().string() +
                        ": the disk is full; make room and do it again (what was kept before is safe)");
}

/// Access rights bind every user but root: one that owns nothing here.
void become_nobody() {
    constexpr uid_t nobody = 65534;
    if (geteuid() == 0 && setresuid(nobody, nobody, nobody) != 0)
        throw std::system_error(errno, std::generic_category(), "setresuid");
}

void allow(const std::filesystem::path& path, const char* octal) {
    std::filesystem::permissions(path, static_cast<std::filesystem::perms>(std::stoul(octal, nullptr, 8)));
}

std::string opened_by_nobody(const std::filesystem::path& folder) {
    return said_by_child([&] {
        become_nobody();
        History history(folder);
        history.add_pickup(testing::neck());
        return std::string("written");
    });
}

TEST(Disk, OfAnotherUserIsSaidToBe) {
    constexpr auto advice =
        ": cannot be opened for writing; allow yourself to write to the file and its folder, or "
        "choose another folder with --data DIR";
    const TemporaryFolder folder;
    allow(folder.path(), "555");
    EXPECT_EQ(opened_by_nobody(folder.path()), folder.file().string() + advice) << "an empty folder";
    EXPECT_EQ(opened_by_nobody(folder.path() / "share"),
              (folder.path() / "share").string() + ": this folder cannot be made (Permission denied); make "
                                                   "it yourself, or choose another with --data DIR");

    allow(folder.path(), "755");
    { History(folder.path()).add_pickup(testing::bridge()); }
    allow(folder.path(), "555");
    allow(folder.file(), "444");
    EXPECT_EQ(opened_by_nobody(folder.path()), folder.file().string() + advice)
        << "a history that may only be read";
    allow(folder.path(), "000");
    EXPECT_EQ(opened_by_nobody(folder.path()), folder.file().string() + advice)
        << "a folder that may not be entered";
    allow(folder.path(), "755");
}

TEST(Disk, WithAFileWhereTheFolderShouldBeIsSaidToBe) {
    const TemporaryFolder folder;
    const auto path = folder.path() / "data";
    std::ofstream(path) << "text";
    try {
        History history(path);
        FAIL() << "not refused";
    } catch (const HistoryError& error) {
        EXPECT_EQ(std::string(error.what()),
                  path.string() +
                      ": this folder cannot be made (Not a directory); make it yourself, or choose another "
                      "with --data DIR");
    }
}

} // namespace
} // namespace coilward
