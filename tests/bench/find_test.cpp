#include "bench/find.h"
#include "capture_folder.h"
#include "scripted_meter.h"

#include <map>

namespace coilward {
namespace {

using std::chrono::milliseconds;

/// A serial line that a test has in its hand: what comes on it at each speed, and how long it was listened
/// to.
struct ScriptedLine {
    std::map<int, std::string> bytes_at_baud;
    std::map<std::string, std::string> answers;
    std::vector<std::string> opened;
    std::vector<std::string> sent;
    milliseconds spent{0};

    PortFinding find(const FindOrder& order) {
        std::vector<std::pair<std::shared_ptr<Script>, std::shared_ptr<TestClock>>> links;
        const LineOpener open = [&](const SerialSettings& line) {
            opened.push_back(in_words(line));
            const auto script = std::make_shared<Script>();
            if (const auto bytes = bytes_at_baud.find(line.baud); bytes != bytes_at_baud.end())
                script->pieces.push_back(bytes->second);
            script->answer = [this](const std::string& question) {
                const auto answer = answers.find(question);
                return answer == answers.end() ? std::string() : answer->second;
            };
            const auto clock = std::make_shared<TestClock>();
            links.emplace_back(script, clock);
            return Link{.transport = std::make_unique<ScriptedTransport>(script, clock, false),
                        .clock = clock,
                        .recorded_request = {}};
        };
        const PortFinding found = find_meter(open, true, shipped_drivers(), order);
        for (const auto& [script, clock] : links) {
            spent += clock->elapsed();
            sent.insert(sent.end(), script->commands.begin(), script->commands.end());
        }
        return found;
    }
};

TEST(Find, IsDoneWithASilentSerialLineInSeconds) {
    ScriptedLine line;
    std::vector<std::string> told;
    const PortFinding found = line.find({.progress = [&](const std::string& what) { told.push_back(what); }});
    EXPECT_TRUE(found.heard.empty());
    EXPECT_EQ(found.bytes, 0U);
    EXPECT_LE(line.spent, milliseconds(6500)); // two states of the control lines, three seconds each
    EXPECT_TRUE(line.sent.empty());
    ASSERT_EQ(told.size(), line.opened.size());
    EXPECT_EQ(told.front(), "listening at 9600 baud, 8 data bits, no parity, 1 stop bit");
}

TEST(Find, AsksASilentSerialLineInSecondsToo) {
    ScriptedLine line;
    const PortFinding found = line.find({.ask = true});
    EXPECT_TRUE(found.asked.empty());
    EXPECT_FALSE(line.sent.empty());
    EXPECT_LE(line.spent, milliseconds(15'000));
}

/// At a wrong speed a meter is heard as garbage, so that the other speeds are tried.
TEST(Find, GoesOnToOtherSpeedsWhereBytesCome) {
    ScriptedLine line;
    line.bytes_at_baud[9600] = "\xF8\x00\xF8\x80";
    const std::string reading = "2 DCV -1.2345 mV \r\n";
    line.bytes_at_baud[19200] = reading + reading + reading + reading;
    const PortFinding found = line.find({});
    ASSERT_EQ(found.heard.size(), 1U);
    EXPECT_EQ(found.heard.front()->id, "dmm-ascii-line");
}

} // namespace
} // namespace coilward
