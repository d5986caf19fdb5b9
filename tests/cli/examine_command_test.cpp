#include "bench/simulated_port.h"
#include "cli/program_run.h"
#include "demonstration/simulated_bench.h"
#include "history/history.h"
#include "meter/shipped_driver.h"

#include <array>

#include <fcntl.h>
#include <gmock/gmock.h>
#include <poll.h>
#include <stdlib.h>

namespace coilward {
namespace {

using testing::Coilward;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::replay;

std::vector<StoredReading> readings_of_first_pickup(const History& history) {
    const auto visits = history.visits_of(history.pickup(1)->id);
    return visits.empty() ? std::vector<StoredReading>{} : history.readings_of(visits.back().id);
}

TEST_F(Coilward, ExaminesARecordingAndKeepsItsVerdict) {
    add_pickup("Neck");
    const auto end =
        coilward({"examine", "neck", "--meter", "dmm-scpi", "--port", replay("dmm-scpi/steady.capture"),
                  "--temperature", "21.5", "--complaint", "thin", "--stage", "as received"});
    EXPECT_EQ(end.exit_code, 0);
    EXPECT_EQ(end.err, "");
    EXPECT_THAT(end.out, HasSubstr("temperature: 21.50 °C\nDC resistance: 6.112 kΩ\n"));
    EXPECT_THAT(end.out,
                HasSubstr("\nRead, on what healthy coils of this model measure at this temperature\n"));
    const History history(folder.path());
    const auto visit = history.visits_of(history.pickup(1)->id).at(0);
    EXPECT_EQ(visit.notes, "thin");
    EXPECT_EQ(visit.stage, "as received");
    EXPECT_EQ(history.readings_of(visit.id).size(), 2U);
    EXPECT_EQ(history.verdicts_of(visit.id).size(), 1U);
}

TEST_F(Coilward, ExaminesWithADocumentAsItsOnlyAnswer) {
    add_pickup("Neck");
    const auto end = coilward(
        {"examine", "neck", "--meter", "dmm-scpi", "--port", replay("dmm-scpi/steady.capture"), "--json"});
    EXPECT_EQ(end.exit_code, 0);
    EXPECT_TRUE(end.out.starts_with("{\"id\":")) << end.out;
    EXPECT_EQ(std::ranges::count(end.out, '\n'), 1);
    EXPECT_THAT(end.err, HasSubstr("DC resistance: 6.112 kΩ\n"));
}

/// Live meters on the pickup of the demonstration with shorted turns.
struct LiveBench {
    SimulatedBench bench{load_drivers(COILWARD_SOURCE_DIR "/drivers"), invented_pickups().at(1), 5};

    std::vector<std::string> examine_words() const {
        std::vector<std::string> words{"examine", "neck"};
        for (const BenchMeter& meter : bench.meters())
            words.insert(words.end(), {"--meter", meter.driver->id, "--port", meter.port});
        return words;
    }
};

TEST_F(Coilward, LeavesTheProbesAloneWhereNobodyIsThere) {
    add_pickup("Neck");
    const LiveBench live;
    auto words = live.examine_words();
    words.insert(words.end(), {"--temperature", "22.4", "--yes"});
    const auto end = coilward(words);
    EXPECT_EQ(end.exit_code, 0) << end.err;
    const auto readings = readings_of_first_pickup(History(folder.path()));
    EXPECT_GE(readings.size(), 3U);
    for (const auto& kept : readings)
        EXPECT_EQ(kept.reading.between, Between::leads);
}

/// The other end of the program's terminal.
class Keyboard {
public:
    explicit Keyboard(int master) : master_(master) {}

    /// Waits until the program has written this text since the last call, then types the answer.
    bool answer(const std::string& question, const std::string& typed) {
        while (screen_.find(question) == std::string::npos)
            if (!read_more()) return false;
        screen_.erase(0, screen_.find(question) + question.size());
        return ::write(master_, typed.data(), typed.size()) == static_cast<ssize_t>(typed.size());
    }

    std::string rest() {
        while (read_more()) {
        }
        return screen_;
    }

private:
    bool read_more() {
        pollfd waiting{master_, POLLIN, 0};
        if (::poll(&waiting, 1, 20000) <= 0) return false;
        std::array<char, 512> buffer;
        const auto count = ::read(master_, buffer.data(), buffer.size());
        if (count <= 0) return false;
        screen_.append(buffer.data(), static_cast<std::size_t>(count));
        return true;
    }

    int master_;
    std::string screen_;
};

TEST_F(Coilward, GuidesAPersonAtATerminal) {
    add_pickup("Neck");
    const LiveBench live;
    auto words = live.examine_words();
    words.insert(words.begin(), COILWARD_PROGRAM);
    words.insert(words.end(), {"--data", folder.path(), "--rules", COILWARD_SOURCE_DIR "/rules", "--drivers",
                               COILWARD_SOURCE_DIR "/drivers"});
    const int master = ::posix_openpt(O_RDWR | O_NOCTTY);
    ASSERT_TRUE(master >= 0 && ::grantpt(master) == 0 && ::unlockpt(master) == 0);
    const std::string terminal = ::ptsname(master);
    const pid_t child = testing::start_child([&] {
        const int slave = ::open(terminal.c_str(), O_RDWR);
        for (const int descriptor : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
            ::dup2(slave, descriptor);
        std::vector<char*> arguments;
        for (auto& word : words)
            arguments.push_back(word.data());
        arguments.push_back(nullptr);
        ::execv(COILWARD_PROGRAM, arguments.data());
    });
    Keyboard keyboard(master);
    EXPECT_TRUE(keyboard.answer("degrees Celsius; s skips it, q stops here: ", "warm\n"));
    EXPECT_TRUE(keyboard.answer("degrees Celsius; s skips it, q stops here: ", "22,4\n"));
    EXPECT_TRUE(keyboard.answer("Enter when ready, s skips it, q stops here: ", "\n"));
    EXPECT_TRUE(keyboard.answer("Enter when ready, s skips it, q stops here: ", "q\n"));
    EXPECT_THAT(keyboard.rest(), HasSubstr("most likely: "));
    EXPECT_EQ(testing::end_of(child), 0);
    ::close(master);
    const auto readings = readings_of_first_pickup(History(folder.path()));
    ASSERT_EQ(readings.size(), 2U);
    EXPECT_DOUBLE_EQ(readings[0].reading.value.value(), 22.4);
    EXPECT_EQ(readings[1].reading.quantity, Quantity::dc_resistance);
    EXPECT_THAT(readings[1].raw, Not(::testing::IsEmpty()));
}

} // namespace
} // namespace coilward
