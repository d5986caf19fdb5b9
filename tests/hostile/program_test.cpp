// A sample of the mutants through the program itself, and what becomes of its output where the disk refuses
// it.

#include "cli/program_run.h"
#include "hostile/mutant.h"
#include "toml/utf8.h"

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <fmt/format.h>
#include <sys/resource.h>

namespace coilward {
namespace {

using testing::Mutant;
using testing::ProgramEnd;
namespace fs = std::filesystem;

const fs::path project = COILWARD_SOURCE_DIR;

std::string text_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

struct HostileProgram : testing::Coilward {
    fs::path put(const std::string& name, const std::string& text) const {
        const fs::path file = fs::path(folder.path()) / name;
        std::ofstream(file, std::ios::binary) << text;
        return file;
    }

    /// Through the shell into files: an answer may be longer than a pipe holds.
    ProgramEnd run(const std::string& words) const {
        const fs::path out = fs::path(folder.path()) / "out";
        const fs::path err = fs::path(folder.path()) / "err";
        const auto end = testing::run_program(
            "/bin/sh",
            {"-c", fmt::format("{} --data {}/data --rules {} --drivers {} {} >{} 2>{}", COILWARD_PROGRAM,
                               folder.path().string(), rules.string(), (project / "drivers").string(), words,
                               out.string(), err.string())});
        return {end.exit_code, text_of(out), text_of(err)};
    }

    /// 0, or 3 with one line; true where it was 0.
    bool expect_done_or_refused(const ProgramEnd& end, const fs::path& file) const {
        EXPECT_TRUE(end.exit_code == 0 || end.exit_code == 3) << end.exit_code << ": " << end.err;
        if (end.exit_code == 0) return true;
        EXPECT_TRUE(end.err.ends_with('\n')) << end.err;
        const std::string line = end.err.substr(0, end.err.size() - 1);
        testing::expect_useful(line);
        EXPECT_NE(line.find(file.filename().string()), std::string::npos) << line;
        return false;
    }

    fs::path rules = project / "rules";
};

TEST_F(HostileProgram, JudgesReadingsOrRefusesThem) {
    testing::try_mutants(testing::originals_below(project / "docs/examples", ".json"), 60'000, 60,
                         [&](const Mutant& mutant) {
                             const fs::path file = put("readings.json", mutant.text);
                             const auto end = run("diagnose --json --readings " + file.string());
                             return expect_done_or_refused(end, file);
                         });
}

TEST_F(HostileProgram, PlaysCapturesOrRefusesThem) {
    testing::try_mutants(
        testing::originals_below(project / "captures", ".capture"), 61'000, 60, [&](const Mutant& mutant) {
            const fs::path file = put("harmed.capture", mutant.text);
            // Whose it is may be what was harmed; a meter that refuses its set-up in the recording is 1.
            const auto end = run("replay --full-speed --json --meter dmm-scpi " + file.string());
            if (end.exit_code == 1) return true;
            return expect_done_or_refused(end, file);
        });
}

TEST_F(HostileProgram, ImportsAllOrNothing) {
    ASSERT_EQ(run("pickup add --name Own --model six-rod-42").exit_code, 0);
    const std::string before = run("export").out;
    testing::try_mutants({{"docs/shop.json", text_of(project / "docs/shop.json")}}, 62'000, 60,
                         [&](const Mutant& mutant) {
                             const fs::path file = put("import.json", mutant.text);
                             const auto end = run("import " + file.string());
                             if (end.exit_code == 1)
                                 testing::expect_useful(end.err.substr(0, end.err.size() - 1));
                             const bool done = end.exit_code != 1 && expect_done_or_refused(end, file);
                             if (!done) {
                                 EXPECT_EQ(run("export").out, before);
                             }
                             if (done) {
                                 EXPECT_EQ(run("verify").exit_code, 0);
                                 fs::remove_all(fs::path(folder.path()) / "data");
                                 EXPECT_EQ(run("import " + put("own.json", before).string()).exit_code, 0);
                             }
                             return done;
                         });
}

TEST_F(HostileProgram, UsesRulesOrRefusesThem) {
    rules = fs::path(folder.path()) / "rules";
    fs::copy(project / "rules", rules, fs::copy_options::recursive);
    testing::try_mutants(
        testing::originals_below(project / "rules", ".toml"), 63'000, 60, [&](const Mutant& mutant) {
            put("rules/" + mutant.original->name, mutant.text);
            const auto checked = run("check-rules " + rules.string());
            const auto used = run("models");
            put("rules/" + mutant.original->name, mutant.original->text);
            EXPECT_EQ(checked.exit_code, used.exit_code) << used.err;
            EXPECT_TRUE(checked.exit_code == 0 || checked.exit_code == 3)
                << checked.exit_code << ": " << checked.err;
            if (checked.exit_code == 3) {
                testing::expect_useful(used.err.substr(0, used.err.size() - 1));
                EXPECT_NE(used.err.find(mutant.original->name + ":"), std::string::npos) << used.err;
            }
            return checked.exit_code == 0;
        });
}

/// Runs in a process that may write no file longer than that.
ProgramEnd run_with_files_up_to(rlim_t bytes, const std::vector<std::string>& words) {
    testing::Line err;
    const pid_t child = testing::start_child([&] {
        signal(SIGXFSZ, SIG_IGN); // so that writing fails instead
        const rlimit limit{bytes, bytes};
        setrlimit(RLIMIT_FSIZE, &limit);
        setenv("LLVM_PROFILE_FILE", "/dev/null",
               1); // where lines are counted, the counts would not fit either
        err.take_over(STDERR_FILENO);
        testing::become_program(COILWARD_PROGRAM, words);
    });
    err.close_writing();
    ProgramEnd end{.err = err.hear_all()};
    const int status = testing::end_of(child);
    if (WIFEXITED(status)) end.exit_code = WEXITSTATUS(status);
    return end;
}

/// A file that a command was to write is not there, and nothing else is left in its place.
void expect_nothing_in(const fs::path& folder, const ProgramEnd& end) {
    EXPECT_EQ(end.exit_code, 1) << end.err;
    const std::size_t last = end.err.rfind("coilward: ");
    ASSERT_NE(last, std::string::npos) << end.err;
    testing::expect_useful(end.err.substr(last, end.err.size() - 1 - last));
    EXPECT_TRUE(fs::is_empty(folder)) << end.err;
}

TEST_F(HostileProgram, WritesFilesWholeOrNotAtAll) {
    const std::string data = (fs::path(folder.path()) / "data").string();
    const fs::path here = fs::path(folder.path()) / "written";
    fs::create_directory(here);
    const std::string file = (here / "file").string();

    expect_nothing_in(here, run_with_files_up_to(100, {"model", "new", "mine", "--type", "strip-single",
                                                       "--awg", "44", "--core", "64mm,3mm", "--flange",
                                                       "72mm,12mm", "--height", "5mm", "--out", file}));

    ASSERT_EQ(run("pickup add --name Own --model six-rod-42").exit_code, 0);
    const fs::path picture = put("picture.jpg", std::string(300'000, 'x'));
    ASSERT_EQ(run("pickup attach own " + picture.string()).exit_code, 0);
    expect_nothing_in(
        here, run_with_files_up_to(200'000, {"--data", data, "pickup", "fetch", "own", "picture.jpg", file}));
    expect_nothing_in(here, run_with_files_up_to(200'000, {"--data", data, "backup", file}));

    EXPECT_EQ(run("pickup fetch own picture.jpg " + file).exit_code, 0);
    EXPECT_EQ(text_of(file), text_of(picture));
    const auto again = run("pickup fetch own picture.jpg " + file);
    EXPECT_EQ(again.exit_code, 1);
    EXPECT_EQ(again.err,
              "coilward: " + file + ": is there already; choose a name that is free, or move it away\n");
}

} // namespace
} // namespace coilward
