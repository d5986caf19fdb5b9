#include "bench/lasting_watch.h"

namespace coilward {
namespace {

using std::chrono::milliseconds;

/// How often a lost device is looked for: its return is to be noticed within a second.
constexpr milliseconds between_looks{100};

/// The link, once the device is back; nothing where it does not come by `until` or the watch is stopped.
std::optional<Link> link_again(const std::function<Link()>& open, const WatchOrder& order,
                               std::optional<milliseconds> until) {
    MachineClock clock;
    while (!order.stop()) {
        clock.wait(between_looks);
        try {
            return open();
        } catch (const TransportError&) { // not yet there, or not yet ours to open
            if (until && clock.elapsed() >= *until) return std::nullopt;
        }
    }
    return std::nullopt;
}

/// What the parts of a watch gave together; the last one tells how it ended.
WatchEnd joined(const WatchEnd& before, WatchEnd last) {
    last.readings += before.readings;
    last.counts += before.counts;
    if (last.last_note.empty()) last.last_note = before.last_note;
    return last;
}

} // namespace

WatchEnd watch_lasting(const Driver& driver, const std::function<Link()>& open, WatchOrder order,
                       const WatchListener& listener) {
    const MachineClock clock;
    const auto wanted = order.count;
    std::optional<milliseconds> until; // from the last reading, so that a port that only opens is not enough
    std::optional<Link> link = open();
    WatchEnd whole;
    for (;;) {
        if (wanted) order.count = *wanted - whole.readings;
        MeterSession session(driver, std::move(*link));
        const WatchEnd part = watch(session, order, listener.reading);
        whole = joined(whole, part);
        if (whole.why != WatchEnd::Why::unplugged) return whole;
        listener.lost();
        if (order.patience > milliseconds(0) && (part.readings > 0 || !until))
            until = clock.elapsed() + order.patience;
        link = until && clock.elapsed() >= *until ? std::nullopt : link_again(open, order, until);
        if (!link) {
            if (order.stop()) whole.why = WatchEnd::Why::stopped;
            return whole;
        }
        listener.back();
    }
}

} // namespace coilward
