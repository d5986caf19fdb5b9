#include "bench/port.h"
#include "bench/serial_transport.h"

#include <fstream>
#include <vector>

#include <gtest/gtest.h>
#include <unistd.h>

namespace coilward {
namespace {

TEST(Port, IsReadFromItsText) {
    EXPECT_EQ(std::get<DevicePort>(port_from_text("/dev/ttyUSB0")).path, "/dev/ttyUSB0");
    EXPECT_EQ(std::get<TcpPort>(port_from_text("tcp://192.168.1.20:5025")).host, "192.168.1.20");
    EXPECT_EQ(std::get<TcpPort>(port_from_text("tcp://[::1]:5025")).host, "::1");
    EXPECT_EQ(std::get<TcpPort>(port_from_text("tcp://[::1]:5025")).service, "5025");
    EXPECT_EQ(std::get<ReplayPort>(port_from_text("replay:captures/a.capture")).file, "captures/a.capture");
}

TEST(Port, SaysWhatWasExpected) {
    const std::vector<std::pair<std::string, std::string>> table{
        {"", "port \"\": expected the path of a device, tcp://HOST:PORT or replay:FILE"},
        {"udp://a:1", "port \"udp://a:1\": expected the path of a device, tcp://HOST:PORT or replay:FILE"},
        {"tcp://meter", "port \"tcp://meter\": expected tcp://HOST:PORT, as tcp://192.168.1.20:5025"},
        {"tcp://:5025", "port \"tcp://:5025\": expected tcp://HOST:PORT, as tcp://192.168.1.20:5025"},
        {"tcp://meter:0",
         "port \"tcp://meter:0\": expected a port number from 1 to 65535 behind the last colon"},
        {"tcp://meter:99999",
         "port \"tcp://meter:99999\": expected a port number from 1 to 65535 behind the last colon"},
        {"tcp://meter:scpi",
         "port \"tcp://meter:scpi\": expected a port number from 1 to 65535 behind the last colon"},
        {"replay:", "port \"replay:\": expected replay:FILE, with the name of a capture"},
    };
    for (const auto& [text, complaint] : table) {
        try {
            port_from_text(text);
            ADD_FAILURE() << text;
        } catch (const std::invalid_argument& error) {
            EXPECT_EQ(error.what(), complaint);
        }
    }
}

std::string refusal(const Port& port) {
    try {
        open_port(port, {});
    } catch (const TransportError& error) {
        return error.what();
    }
    return "opened";
}

TEST(Port, SaysWhyADeviceCannotBeOpened) {
    EXPECT_EQ(refusal(DevicePort{"/dev/no-such-meter"}),
              "/dev/no-such-meter: No such file or directory; check that the "
              "meter is plugged in and the name of its port");
    EXPECT_EQ(refusal(DevicePort{"/dev/null"}),
              "/dev/null: this is no terminal device; give a serial port, tcp://HOST:PORT or replay:FILE");
}

TEST(Port, SaysWhereNobodyListens) {
    // Port 1 of the loopback address belongs to a service that no bench runs.
    EXPECT_EQ(refusal(TcpPort{"127.0.0.1", "1"}),
              "tcp://127.0.0.1:1: Connection refused; check the address and that the meter listens there");
}

TEST(SerialPort, IsGoneWhereTheQuestionForWaitingBytesFails) {
    EXPECT_EQ(outcome_of_quiet_port(0), LinkOutcome::timeout);
    EXPECT_EQ(outcome_of_quiet_port(3),
              LinkOutcome::timeout); // they arrived a moment ago: the next read has them
    EXPECT_EQ(outcome_of_quiet_port(-2), LinkOutcome::unplugged);
}

TEST(SerialPort, IsNeverAPseudoTerminal) {
    EXPECT_FALSE(is_serial_port("/dev/pts/0"));
    EXPECT_FALSE(is_serial_port("/dev/no-such-meter"));
}

} // namespace
} // namespace coilward
