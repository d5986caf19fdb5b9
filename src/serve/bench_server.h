#pragma once

#include "serve/connection.h"
#include "serve/listen_address.h"
#include "serve/route.h"

#include <memory>

namespace coilward {

/// The bench page and its HTTP interface on one address. Every request passes the gate (gate.h), and where a
/// Pairing is given, shows the device's cookie.
class BenchServer {
public:
    /// Takes the address. Throws std::runtime_error where it cannot be had.
    BenchServer(ListenAddress, const BenchServices&, ConnectionLimits = {});

    /// With the port that the machine chose.
    const ListenAddress& address() const { return address_; }

    /// Serves until `stop`, which any thread may call.
    void run();

    /// Ends run(), from any thread.
    void stop();

private:
    void put_assets();
    void put_routes();
    bool refuse(const httplib::Request&, httplib::Response&) const;
    bool knows_device(const httplib::Request&) const;

    ListenAddress address_;
    const BenchServices& services_;
    LimitedServer server_;
};

} // namespace coilward
