#include "bench/port_list.h"
#include "cli/command.h"
#include "cli/meter_words.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

struct PortsWords {
    bool meters = false;
    bool json = false;
};

std::string usb_words(const UsbIdentity& usb) {
    std::string text = fmt::format("USB {:04x}:{:04x}", usb.vendor, usb.product);
    for (const std::string& each : {usb.manufacturer, usb.name})
        if (!each.empty()) text += " " + each;
    if (!usb.serial.empty()) text += ", serial " + usb.serial;
    return text;
}

void print_port(const ListedPort& port, const std::vector<Driver>& drivers) {
    fmt::print("{}  {}\n", port.path, port.usb ? usb_words(*port.usb) : port.description);
    fmt::print("  probably {}\n", probable_device(port, drivers));
    if (const std::string trouble = trouble_with(port); !trouble.empty()) fmt::print("  {}\n", trouble);
}

Json document_of(const ListedPort& port, const std::vector<Driver>& drivers) {
    Json document{{"port", port.path}, {"description", port.description}};
    if (port.usb)
        document["usb"] = Json{{"vendor", fmt::format("{:04x}", port.usb->vendor)},
                               {"product", fmt::format("{:04x}", port.usb->product)},
                               {"manufacturer", port.usb->manufacturer},
                               {"name", port.usb->name},
                               {"serial", port.usb->serial}};
    document["probably"] = probable_device(port, drivers);
    if (const std::string trouble = trouble_with(port); !trouble.empty()) document["trouble"] = trouble;
    return document;
}

void list_ports(const std::vector<Driver>& drivers, bool json) {
    const std::vector<ListedPort> ports = serial_ports();
    if (json) {
        Json all = Json::array();
        for (const ListedPort& port : ports)
            all.push_back(document_of(port, drivers));
        fmt::print("{}\n", Json{{"ports", all}}.dump());
        return;
    }
    for (const ListedPort& port : ports)
        print_port(port, drivers);
    fmt::print("{}\n", ports.empty()
                           ? "no serial port is plugged in; a meter on the network is tcp://HOST:PORT"
                           : "coilward find --port PORT tells which meter is behind a port");
}

void print_meter(const Driver& driver) {
    fmt::print("{}  {}\n  {}\n", driver.id, name(driver.status), driver.title);
    for (const std::string& instrument : driver.instruments)
        fmt::print("  documented for: {}\n", instrument);
    for (const std::string& gap : driver.gaps)
        fmt::print("  not known: {}\n", gap);
    if (!driver.same_wire.empty())
        fmt::print("  sends what these read too: {}\n", fmt::join(driver.same_wire, ", "));
}

void list_meters(const std::vector<Driver>& drivers, bool json) {
    if (json) {
        Json all = Json::array();
        for (const Driver& driver : drivers)
            all.push_back({{"driver", driver.id},
                           {"title", driver.title},
                           {"status", name(driver.status)},
                           {"instruments", driver.instruments},
                           {"gaps", driver.gaps},
                           {"same_wire", driver.same_wire}});
        fmt::print("{}\n", Json{{"meters", all}}.dump());
        return;
    }
    for (const Driver& driver : drivers)
        print_meter(driver);
    fmt::print("draft: parts were seen in no document; checked: decodes the documents' examples; proven: "
               "decodes recordings of a real meter\n");
}

void run(const PortsWords& words, const Session& session) {
    const std::vector<Driver> drivers = drivers_of(session);
    if (words.meters)
        list_meters(drivers, words.json);
    else
        list_ports(drivers, words.json);
}

} // namespace

void add_ports_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<PortsWords>();
    CLI::App* command =
        app.add_subcommand("ports", "List the serial ports that are plugged in; opens and sends nothing");
    command->add_flag("--meters", words->meters, "List the drivers instead, and how far to trust each");
    command->add_flag("--json", words->json, "As one document");
    command->callback([words, &session] { run(*words, session); });
    command->footer("Example:\n  coilward ports");
}

} // namespace coilward
