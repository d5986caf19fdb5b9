#include "serve/meter_desk.h"

#include "bench/lasting_watch.h"
#include "serve/live_json.h"

#include <chrono>

#include <fmt/format.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;

constexpr milliseconds before_another_try{500};
constexpr std::chrono::minutes traced{5};
constexpr std::size_t longest_trace = 3000;
constexpr milliseconds worth_telling{3000}; ///< of silence

/// Waits, but no longer than until `stop`.
void wait(milliseconds time, const std::function<bool()>& stop) {
    MachineClock clock;
    constexpr milliseconds one_look{50};
    for (milliseconds waited{0}; waited < time && !stop(); waited += one_look)
        clock.wait(one_look);
}

std::string why_quiet(const Quiet& quiet) {
    if (!quiet.note.empty()) return quiet.note;
    if (quiet.bytes > 0) return "bytes arrive, but none is a reading; check speed, parity and the driver";
    return "check that it is on and that its output is switched on";
}

} // namespace

MeterDesk::MeterDesk(std::vector<BenchMeter> meters, Broadcast& stream, ServeListener listener)
    : stream_(stream), listener_(std::move(listener)) {
    for (BenchMeter& meter : meters) {
        auto open = meter.open;
        watched_.emplace_back(std::move(meter), std::move(open));
    }
    for (Watched& each : watched_)
        give_back(index_of(each));
}

MeterDesk::~MeterDesk() {
    for (Watched& each : watched_)
        each.stop = true;
    for (Watched& each : watched_)
        if (each.thread.joinable()) each.thread.join();
}

std::size_t MeterDesk::index_of(const Watched& watched) const {
    for (std::size_t i = 0; i < watched_.size(); ++i)
        if (&watched_[i] == &watched) return i;
    return watched_.size();
}

std::vector<BenchMeter> MeterDesk::for_examination() {
    std::vector<BenchMeter> meters;
    for (Watched& each : watched_) {
        BenchMeter meter;
        meter.driver = each.meter.driver;
        meter.port = each.meter.port;
        meter.replay = each.meter.replay;
        meter.open = [&each] { return each.port.lend(); };
        meters.push_back(std::move(meter));
    }
    return meters;
}

void MeterDesk::take(std::size_t i) {
    Watched& watched = watched_[i];
    watched.stop = true;
    if (watched.thread.joinable()) watched.thread.join();
}

void MeterDesk::give_back(std::size_t i) {
    Watched& watched = watched_[i];
    if (watched.meter.replay) return say(watched, "recording", "played when an examination begins");
    if (watched.thread.joinable()) return;
    watched.stop = false;
    watched.thread = std::thread([this, &watched] { watch_when_idle(watched); });
}

void MeterDesk::watch_when_idle(Watched& watched) {
    const auto stop = [&] { return watched.stop.load(); };
    while (!stop()) {
        try {
            watch_once(watched, std::nullopt, stop, [](const StampedReading&) {});
        } catch (const CannotMeasure& error) {
            say(watched, "failed", error.what());
            wait(before_another_try, stop);
        }
    }
}

void MeterDesk::watch_for(std::size_t i, const MeasurementRequest& request, const std::function<bool()>& stop,
                          const std::function<void(const StampedReading&)>& each) {
    while (!stop())
        watch_once(watched_[i], request, stop, each);
}

void MeterDesk::watch_once(Watched& watched, const std::optional<MeasurementRequest>& request,
                           const std::function<bool()>& stop,
                           const std::function<void(const StampedReading&)>& each) {
    WatchOrder order{.request = request, .patience = milliseconds(0), .stop = stop};
    order.quiet = [&](const Quiet& quiet) {
        if (quiet.lasted >= worth_telling) say(watched, "quiet", why_quiet(quiet));
    };
    try {
        watch_lasting(*watched.meter.driver, [&] { return watched.port.lend(); }, order,
                      {.reading =
                           [&](const StampedReading& stamped) {
                               show(watched, stamped);
                               each(stamped);
                           },
                       .lost = [&] { say(watched, "unplugged", "put its plug back; it goes on by itself"); },
                       .back = [&] { say(watched, "opening"); }});
    } catch (const TransportError& error) {
        say(watched, "unplugged", error.what());
        wait(before_another_try, stop);
    }
}

bool MeterDesk::came_back(std::size_t i) {
    Watched& watched = watched_[i];
    if (!watched.port.lost()) return false;
    try {
        watched.port.lend();
        say(watched, "opening");
        return true;
    } catch (const TransportError&) {
        say(watched, "unplugged", "put its plug back; it goes on by itself");
        return false;
    }
}

void MeterDesk::show(std::size_t i, const StampedReading& stamped) {
    show(watched_[i], stamped);
}

void MeterDesk::show(Watched& watched, const StampedReading& stamped) {
    std::string face;
    bool began = false;
    {
        const std::lock_guard lock(mutex_);
        began = watched.face.state != "reading";
        watched.face = {.state = "reading", .says = stamped.note, .reading = stamped};
        watched.trace.push_back(stamped);
        while (watched.trace.size() > longest_trace || watched.trace.front().at < stamped.at - traced)
            watched.trace.pop_front();
        face = meter_to_json(index_of(watched), watched.meter, watched.face);
    }
    stream_.publish("meter", face);
    if (began) tell(watched, "reading", "");
}

void MeterDesk::tell(const Watched& watched, const std::string& state, const std::string& says) const {
    listener_.meter(watched.meter.driver->id, watched.meter.port, state, says);
}

void MeterDesk::say(Watched& watched, const std::string& state, const std::string& says) {
    std::string face;
    {
        const std::lock_guard lock(mutex_);
        if (watched.face.state == state && watched.face.says == says) return;
        watched.face.state = state;
        watched.face.says = says;
        face = meter_to_json(index_of(watched), watched.meter, watched.face);
    }
    stream_.publish("meter", face);
    tell(watched, state, says);
}

std::string MeterDesk::faces_to_json() const {
    const std::lock_guard lock(mutex_);
    std::string faces;
    for (std::size_t i = 0; i < watched_.size(); ++i)
        faces += (i > 0 ? "," : "") + meter_to_json(i, watched_[i].meter, watched_[i].face);
    return "{\"meters\":[" + faces + "]}";
}

std::string MeterDesk::trace_to_json(std::size_t i) const {
    const std::lock_guard lock(mutex_);
    std::string points;
    for (const StampedReading& each : watched_[i].trace)
        points += (points.empty() ? "" : ",") + trace_point_to_json(each);
    return "{\"points\":[" + points + "]}";
}

} // namespace coilward
