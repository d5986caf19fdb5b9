#include "bench/port_list.h"
#include "capture_folder.h"
#include "meter/instrument_names.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

ListedPort usb_port(const std::string& manufacturer, const std::string& name) {
    return {.path = "/dev/ttyUSB0",
            .description = name,
            .usb = UsbIdentity{.vendor = 0x0403,
                               .product = 0x6001,
                               .manufacturer = manufacturer,
                               .name = name,
                               .serial = {}},
            .access = {}};
}

TEST(PortList, GuessesNothingBeyondTheTextsOfTheDevice) {
    struct Row {
        const char* manufacturer;
        const char* name;
        const char* probably;
    };

    constexpr const char* adapter = "a USB serial adapter; its text does not tell which meter is behind it";
    constexpr const char* unknown = "unknown: its text names no meter and no adapter that is known here";
    const Row rows[] = {
        {"FTDI", "FT232R USB UART", adapter},
        {"Prolific Technology Inc.", "USB-Serial Controller", adapter},
        {"Silicon Labs", "CP2102 USB to UART Bridge Controller", adapter},
        {"Keysight", "E4980A", "KEYSIGHT E4980A, which lcr-fetch-ab reads"},
        {"", "E4980A", unknown}, // no maker: it may be anybody's
        {"Somebody", "Coffee machine", unknown},
        {"", "", unknown},
    };
    for (const Row& row : rows)
        EXPECT_EQ(probable_device(usb_port(row.manufacturer, row.name), shipped_drivers()), row.probably)
            << row.name;
    EXPECT_EQ(probable_device({.path = "/dev/ttyS0", .description = "ttyS0", .usb = {}, .access = {}},
                              shipped_drivers()),
              "a serial socket of this machine; nothing tells what is plugged into it");
}

TEST(PortList, ExplainsWhyAPortCannotBeOpenedAndWhatToDo) {
    ListedPort port = usb_port("FTDI", "FT232R USB UART");
    EXPECT_EQ(trouble_with(port), "");
    port.access = {.allowed = false, .there = true, .group = "dialout", .group_may = true};
    EXPECT_EQ(trouble_with(port), "/dev/ttyUSB0: you may not open it; say \"sudo adduser $USER dialout\" and "
                                  "log in again, or install the udev rule (docs/meters.md)");
    port.access.member_on_disk = true;
    EXPECT_EQ(trouble_with(port), "/dev/ttyUSB0: you may not open it yet: you are in the group dialout, but "
                                  "this login began before; log out and in again");
    port.access = {.allowed = false, .there = true, .group = "root", .group_may = false};
    EXPECT_EQ(trouble_with(port),
              "/dev/ttyUSB0: you may not open it, and no group may; install the udev rule "
              "(docs/meters.md)");
    port.access = {.allowed = false, .there = false};
    EXPECT_EQ(trouble_with(port), "/dev/ttyUSB0: its device is not there; pull the plug and put it back");
}

// Identity lines as manuals print them: Keysight E4980A/AL user's guide, *IDN?; Keithley 2110 manual, *IDN?.
TEST(InstrumentNames, AreFoundAsWholeWordsBesideTheirMaker) {
    const Driver& lcr = shipped_driver("lcr-fetch-ab");
    EXPECT_EQ(instrument_named_in(lcr, "Keysight Technologies,E4980A,MY12345678,B.07.00"), "KEYSIGHT E4980A");
    EXPECT_EQ(instrument_named_in(lcr, "Keysight Technologies,E4980AL,MY12345678,B.07.00"),
              "KEYSIGHT E4980AL");
    EXPECT_EQ(instrument_named_in(lcr, "Keysight Technologies,E4980B,MY12345678,B.07.00"), std::nullopt);
    EXPECT_EQ(instrument_named_in(lcr, "Another,E4980A,1,1"), std::nullopt);
    EXPECT_EQ(instrument_named_in(shipped_driver("dmm-scpi"), "KEITHLEY INSTRUMENTS INC.,MODEL 2110,8002,02"),
              "KEITHLEY 2110");
}

} // namespace
} // namespace coilward
