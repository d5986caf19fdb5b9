#include "bench/port_list.h"

#include "bench/transport.h"
#include "meter/instrument_names.h"

#include <algorithm>
#include <array>
#include <memory>
#include <string_view>

#include <fmt/format.h>
#include <grp.h>
#include <libserialport.h>
#include <pwd.h>
#include <sys/stat.h>
#include <unistd.h>

namespace coilward {
namespace {

std::string text_or_nothing(const char* text) {
    return text ? text : "";
}

/// True where the group file lists the user, whatever this login knows of it.
bool lists_user(const group& owner) {
    const passwd* user = ::getpwuid(::getuid());
    if (!user || !owner.gr_mem) return false;
    for (char** member = owner.gr_mem; *member; ++member)
        if (std::string_view(*member) == user->pw_name) return true;
    return false;
}

PortAccess access_to(const std::string& path) {
    PortAccess access;

    struct stat state {};

    access.there = ::stat(path.c_str(), &state) == 0;
    access.allowed = access.there && ::access(path.c_str(), R_OK | W_OK) == 0;
    access.group_may = (state.st_mode & S_IRGRP) && (state.st_mode & S_IWGRP);
    if (const group* owner = access.there ? ::getgrgid(state.st_gid) : nullptr) {
        access.group = owner->gr_name;
        access.member_on_disk = lists_user(*owner);
    }
    return access;
}

ListedPort listed(const sp_port* port) {
    ListedPort found;
    found.path = text_or_nothing(sp_get_port_name(port));
    found.description = text_or_nothing(sp_get_port_description(port));
    if (sp_get_port_transport(port) == SP_TRANSPORT_USB) {
        UsbIdentity usb;
        sp_get_port_usb_vid_pid(port, &usb.vendor, &usb.product);
        usb.manufacturer = text_or_nothing(sp_get_port_usb_manufacturer(port));
        usb.name = text_or_nothing(sp_get_port_usb_product(port));
        usb.serial = text_or_nothing(sp_get_port_usb_serial(port));
        found.usb = usb;
    }
    found.access = access_to(found.path);
    return found;
}

bool says_adapter(const std::string& text) {
    constexpr std::array<std::string_view, 6> words{"uart", "serial", "rs232", "rs-232", "usb-to", "bridge"};
    std::string lower = text;
    std::ranges::transform(lower, lower.begin(), [](unsigned char c) { return std::tolower(c); });
    return std::ranges::any_of(words,
                               [&](std::string_view word) { return lower.find(word) != std::string::npos; });
}

} // namespace

std::vector<ListedPort> serial_ports() {
    sp_port** ports = nullptr;
    if (sp_list_ports(&ports) != SP_OK)
        throw TransportError("the serial ports of this machine cannot be listed; name one with --port");
    const std::unique_ptr<sp_port*, decltype(&sp_free_port_list)> kept(ports, &sp_free_port_list);
    std::vector<ListedPort> found;
    for (sp_port** port = ports; *port; ++port)
        found.push_back(listed(*port));
    std::ranges::sort(found, {}, &ListedPort::path);
    return found;
}

std::string probable_device(const ListedPort& port, const std::vector<Driver>& drivers) {
    if (!port.usb) return "a serial socket of this machine; nothing tells what is plugged into it";
    const std::string text = port.usb->manufacturer + " " + port.usb->name;
    for (const Driver& driver : drivers)
        if (const auto instrument = instrument_named_in(driver, text))
            return fmt::format("{}, which {} reads", *instrument, driver.id);
    if (says_adapter(text)) return "a USB serial adapter; its text does not tell which meter is behind it";
    return "unknown: its text names no meter and no adapter that is known here";
}

std::string trouble_with(const ListedPort& port) {
    const PortAccess& access = port.access;
    if (access.allowed) return {};
    if (!access.there)
        return fmt::format("{}: its device is not there; pull the plug and put it back", port.path);
    const std::string rule = "install the udev rule (docs/meters.md)";
    if (!access.group_may || access.group.empty())
        return fmt::format("{}: you may not open it, and no group may; {}", port.path, rule);
    if (access.member_on_disk)
        return fmt::format(
            "{}: you may not open it yet: you are in the group {}, but this login began before; "
            "log out and in again",
            port.path, access.group);
    return fmt::format("{}: you may not open it; say \"sudo adduser $USER {}\" and log in again, or {}",
                       port.path, access.group, rule);
}

} // namespace coilward
