#include "bench/echoed_transport.h"
#include "bench/meter_session.h"
#include "capture_folder.h"
#include "scripted_meter.h"

namespace coilward {
namespace {

using std::chrono::seconds;

/// A meter that returns each character, but is busy for the first few of them.
struct EchoingMeter {
    std::shared_ptr<Script> script = std::make_shared<Script>();
    std::string line;
    int busy_for = 0;

    explicit EchoingMeter(int deaf_to = 0) : busy_for(deaf_to) {
        script->answer = [this](const std::string& bytes) -> std::string {
            EXPECT_EQ(bytes.size(), 1U) << "the next character came before the echo";
            if (busy_for-- > 0) return "";
            line += bytes;
            if (bytes != "\n") return bytes;
            const std::string command = std::exchange(line, {});
            return "\n" + std::string(command == "FETC?\n"   ? "+6.11200000E+03\n"
                                      : command == "FUNC?\n" ? "RES\n"
                                                             : "");
        };
    }
};

TEST(EchoedTransport, SendsACharacterOnlyAfterTheEchoOfTheLast) {
    EchoingMeter meter;
    MeterSession session(shipped_driver("dmm-scpi-echo"), scripted_link(meter.script));
    session.prepare({.quantity = Quantity::dc_resistance});
    const SessionEvent event = session.next(seconds(10));
    ASSERT_TRUE(std::holds_alternative<StampedReading>(event));
    EXPECT_EQ(std::get<StampedReading>(event).reading.value, 6112.0);
    EXPECT_EQ(session.counts().bytes_that_are_no_reading(), 0U);
}

TEST(EchoedTransport, SendsACharacterAgainThatABusyMeterIgnored) {
    EchoingMeter meter(2);
    EchoedTransport line(std::move(scripted_link(meter.script).transport));
    EXPECT_EQ(line.write("FETC?\n"), LinkOutcome::done);
    EXPECT_EQ(line.read(seconds(1)).bytes, "+6.11200000E+03\n");
    EXPECT_EQ(meter.script->commands.size(), 2U + 6U);
}

TEST(EchoedTransport, GivesACommandUpWhereNoEchoComes) {
    EchoingMeter meter(1000);
    EchoedTransport line(std::move(scripted_link(meter.script).transport));
    EXPECT_EQ(line.write("FETC?\n"), LinkOutcome::done);
    EXPECT_EQ(meter.script->commands, (std::vector<std::string>{"F", "F", "F", "F", "\n"}));
}

TEST(EchoedTransport, SaysThatTheMeterIsGone) {
    EchoingMeter meter;
    EchoedTransport line(std::move(scripted_link(meter.script).transport));
    meter.script->pulled = true;
    EXPECT_EQ(line.write("FETC?\n"), LinkOutcome::unplugged);
}

} // namespace
} // namespace coilward
