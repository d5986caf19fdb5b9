#pragma once

#include "meter/driver.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// What a USB device says of itself.
struct UsbIdentity {
    int vendor = 0;           ///< USB id
    int product = 0;          ///< USB id
    std::string manufacturer; ///< these may be empty
    std::string name;
    std::string serial;
};

/// Who may open a port.
struct PortAccess {
    bool allowed = true;         ///< the user may read and write it now
    bool there = true;           ///< false: the device is gone since
    std::string group;           ///< that owns the port
    bool group_may = false;      ///< read and write it
    bool member_on_disk = false; ///< the group lists the user, who may have to log in again
};

/// A serial port that is plugged in.
struct ListedPort {
    std::string path;               ///< as open_port() takes it
    std::string description;        ///< as the system words it; may be empty
    std::optional<UsbIdentity> usb; ///< absent: no USB device
    PortAccess access;              ///< of the user who runs the program
};

/// Every serial port that the machine knows, with its USB identity. Other terminal devices are not among
/// them. Opens none. Throws TransportError where the list cannot be had.
std::vector<ListedPort> serial_ports();

/// What is probably behind the port, from the texts of its USB device and nothing else.
std::string probable_device(const ListedPort&, const std::vector<Driver>&);

/// Why the port cannot be opened and what to do, on one line; empty where it can.
std::string trouble_with(const ListedPort&);

} // namespace coilward
