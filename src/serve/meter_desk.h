#pragma once

#include "bench/watch.h"
#include "guide/bench_meter.h"
#include "serve/broadcast.h"
#include "serve/kept_port.h"
#include "serve/serve_listener.h"

#include <atomic>
#include <deque>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

namespace coilward {

/// What one meter shows.
struct MeterFace {
    std::string state = "opening";         ///< opening, reading, quiet, unplugged, failed, recording
    std::string says;                      ///< more about the state, one line; may be empty
    std::optional<StampedReading> reading; ///< the latest
};

/// The meters of the bench. Each is watched from a thread of its own and tells the stream what it shows,
/// until an examination takes it; see `take`.
class MeterDesk {
public:
    /// Begins to watch them. The stream must outlive it.
    MeterDesk(std::vector<BenchMeter> meters, Broadcast& stream, ServeListener = {});
    ~MeterDesk();
    MeterDesk(const MeterDesk&) = delete;
    MeterDesk& operator=(const MeterDesk&) = delete;

    /// How many meters there are.
    std::size_t size() const { return watched_.size(); }

    /// For an examination: over the same ports, which stay open.
    std::vector<BenchMeter> for_examination();

    /// Ends the meter's watch, so that the examination can speak with it.
    void take(std::size_t meter);

    /// Watches it again.
    void give_back(std::size_t meter);

    /// Watches the taken meter for a request, with `watch_lasting`, until `stop` says so; waits where its
    /// port cannot be opened. `each` hears the readings. Throws CannotMeasure.
    void watch_for(std::size_t meter, const MeasurementRequest&, const std::function<bool()>& stop,
                   const std::function<void(const StampedReading&)>& each);

    /// What the taken meter shows to somebody else who speaks with it.
    void show(std::size_t meter, const StampedReading&);

    /// True where the taken meter was lost and is back.
    bool came_back(std::size_t meter);

    /// The i-th, from 0, below size().
    const BenchMeter& meter(std::size_t i) const { return watched_[i].meter; }

    /// {"meters": [...]}: every meter, its state and latest reading, on one line.
    std::string faces_to_json() const;

    /// {"points": [...]} of the last five minutes of one meter.
    std::string trace_to_json(std::size_t meter) const;

private:
    struct Watched {
        BenchMeter meter;
        KeptPort port;
        MeterFace face{};
        std::deque<StampedReading> trace{};
        std::atomic<bool> stop{false};
        std::thread thread{};

        Watched(BenchMeter its_meter, std::function<Link()> open)
            : meter(std::move(its_meter)), port(std::move(open)) {}
    };

    void watch_when_idle(Watched&);
    void watch_once(Watched&, const std::optional<MeasurementRequest>&, const std::function<bool()>& stop,
                    const std::function<void(const StampedReading&)>& each);
    void show(Watched&, const StampedReading&);
    void say(Watched&, const std::string& state, const std::string& says = {});
    void tell(const Watched&, const std::string& state, const std::string& says) const;
    std::size_t index_of(const Watched&) const;

    Broadcast& stream_;
    ServeListener listener_;
    mutable std::mutex mutex_; ///< of faces and traces
    std::deque<Watched> watched_;
};

} // namespace coilward
