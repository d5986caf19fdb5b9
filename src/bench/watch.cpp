#include "bench/watch.h"

#include "reading/examination_json.h"

#include <fmt/format.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;

constexpr milliseconds one_wait{250};

WatchEnd::Why why_over(LinkOutcome outcome) {
    return outcome == LinkOutcome::ended ? WatchEnd::Why::ended : WatchEnd::Why::unplugged;
}

/// Reads until there is a reason to end; fills in all of `end` but the counts.
void read_on(MeterSession& session, const WatchOrder& order,
             const std::function<void(const StampedReading&)>& each, WatchEnd& end) {
    milliseconds silent{0};
    while (!order.count || end.readings < *order.count) {
        end.why = WatchEnd::Why::stopped;
        if (order.stop()) return;
        const milliseconds before = session.clock().elapsed();
        const SessionEvent event = session.next(one_wait);
        if (const auto* over = std::get_if<LinkOver>(&event)) {
            end.why = why_over(over->outcome);
            return;
        }
        if (const auto* reading = std::get_if<StampedReading>(&event)) {
            ++end.readings;
            end.silent_bytes = 0;
            silent = milliseconds(0);
            each(*reading);
            continue;
        }
        end.silent_bytes += std::get<Silence>(event).bytes;
        silent += session.clock().elapsed() - before;
        order.quiet({silent, end.silent_bytes, end.silent_bytes > 0 ? session.last_note() : std::string()});
        end.why = WatchEnd::Why::silent;
        if (order.patience > milliseconds(0) && silent >= order.patience) return;
    }
    end.why = WatchEnd::Why::counted;
}

} // namespace

WatchEnd watch(MeterSession& session, const WatchOrder& order,
               const std::function<void(const StampedReading&)>& each) {
    if (order.request)
        session.prepare(*order.request);
    else
        session.prepare_as_it_is();
    WatchEnd end;
    read_on(session, order, each, end);
    end.counts = session.counts();
    end.last_note = session.last_note();
    return end;
}

std::string watch_line(const StampedReading& stamped) {
    // The readings form with two members more in front.
    return fmt::format("{{\"at\":\"{}\",\"meter\":\"{}\",{}", text_of(stamped.at), stamped.meter,
                       reading_to_json(stamped.reading).substr(1));
}

} // namespace coilward
