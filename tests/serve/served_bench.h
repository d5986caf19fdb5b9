#pragma once

#include "bench/simulated_port.h"
#include "coil/impedance.h"
#include "demonstration/scenario.h"
#include "demonstration/simulated_coil.h"
#include "history/temporary_folder.h"
#include "meter/shipped_driver.h"
#include "sanitize/slowed_down.h"
#include "serve/bench_server.h"

#include <atomic>
#include <filesystem>
#include <optional>
#include <thread>

namespace coilward::testing {

inline const Rules& shipped_rules() {
    static const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    return rules;
}

/// A simulated multimeter on the loopback address that can be pulled and put back.
class PluggableMeter {
public:
    PluggableMeter() { plug(); }

    void plug() {
        const InventedPickup pickup = invented_pickups().front();
        port_ = simulate_on_tcp(
            peer_of(SimulatedMeter(shipped_driver("dmm-scpi"),
                                   coil_seen_by(simulated_multimeter, pickup.coil, pickup.fault, probes_))),
            number_);
        number_ = static_cast<std::uint16_t>(std::stoi(name().substr(name().rfind(':') + 1)));
    }

    void unplug() { port_.reset(); }

    std::string name() const { return port_->name(); }

private:
    std::shared_ptr<std::atomic<CoilPort>> probes_ = std::make_shared<std::atomic<CoilPort>>(CoilPort::leads);
    std::uint16_t number_ = 0;
    std::unique_ptr<SimulatedPort> port_;
};

/// The bench page's server on a port of its own, with one simulated multimeter and an empty history.
class ServedBench {
public:
    explicit ServedBench(ListenAddress address = {.host = "127.0.0.1", .port = 0},
                         ConnectionLimits limits = {}, Pairing* pairing = nullptr,
                         const TemporaryFolder* data = nullptr)
        : data_(data ? data->path() : folder_.path()),
          desk_(meters(), stream_), services_{.rules = shipped_rules(),
                                              .open_history = [this] { return history(); },
                                              .stream = stream_,
                                              .meters = desk_,
                                              .board = board_,
                                              .examinations = examinations_,
                                              .pairing = pairing},
          server_(address, services_, limits), serving_([this] { server_.run(); }) {}

    ~ServedBench() {
        server_.stop();
        serving_.join();
    }

    ServedBench(const ServedBench&) = delete;
    ServedBench& operator=(const ServedBench&) = delete;

    History history() const { return History(data_.string()); }

    int port() const { return server_.address().port; }

    std::string origin() const { return "http://" + authority_of(server_.address()); }

    httplib::Client client() const {
        httplib::Client client("127.0.0.1", port());
        client.set_read_timeout(slowed_down ? 200 : 20);
        return client;
    }

    PluggableMeter meter;

private:
    std::vector<BenchMeter> meters() const {
        std::vector<BenchMeter> meters;
        meters.push_back(bench_meter(shipped_driver("dmm-scpi"), port_from_text(meter.name()), meter.name()));
        return meters;
    }

    TemporaryFolder folder_;
    std::filesystem::path data_; ///< where the history lies: that folder, unless a test has its own
    Broadcast stream_;
    MeterDesk desk_;
    ExaminationBoard board_{stream_};
    ExaminationDesk examinations_{shipped_rules(), [this] { return history(); }, desk_, board_};
    BenchServices services_;
    BenchServer server_;
    std::thread serving_;
};

} // namespace coilward::testing
