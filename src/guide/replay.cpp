#include "guide/replay.h"

#include "bench/replay_transport.h"
#include "meter/line_fields.h"
#include "meter/numeric_response.h"

#include <algorithm>
#include <map>

namespace coilward {
namespace {

constexpr std::chrono::milliseconds longest_silence{10000};

std::string without_terminator(const std::string& bytes) {
    return bytes.substr(0, bytes.find_last_not_of("\r\n") + 1);
}

/// Follows the set-up commands of a capture.
class SetupTrail {
public:
    explicit SetupTrail(const Driver& driver) : driver_(driver) {}

    void follow(const std::string& command) {
        const auto sends_it = [&](const MeterSetup& setup) {
            return std::ranges::find(setup.commands, command) != setup.commands.end();
        };
        if (setup_ && sends_it(*setup_)) return; // shared with others, which it then does not mean
        const auto found = std::ranges::find_if(driver_.setups, sends_it);
        if (found != driver_.setups.end())
            setup_ = &*found;
        else
            follow_frequency(command);
    }

    /// The request that brings about the present setup.
    std::optional<MeasurementRequest> request() const {
        if (!setup_) return std::nullopt;
        for (const Quantity quantity : setup_->gives) {
            MeasurementRequest request{.quantity = quantity, .circuit = setup_->circuit};
            if (setup_->lowest_frequency_hz) request.frequency_hz = frequency_hz_;
            if (setup_for(driver_, request) == setup_) return request;
        }
        return std::nullopt;
    }

private:
    /// Takes the frequency out of a command such as "FREQ 1000".
    void follow_frequency(const std::string& command) {
        constexpr std::string_view mark = "{frequency}";
        for (const MeterSetup& setup : driver_.setups)
            for (const std::string& pattern : setup.commands) {
                const std::size_t at = pattern.find(mark);
                if (at == std::string::npos || !command.starts_with(pattern.substr(0, at))) continue;
                if (const auto number = numeric_response(trimmed(std::string_view(command).substr(at))))
                    frequency_hz_ = number->value;
            }
    }

    const Driver& driver_;
    const MeterSetup* setup_ = nullptr;
    std::optional<double> frequency_hz_;
};

/// Reads a meter as it was set until the capture ends.
Measured measure_as_it_is(MeterSession& session, const SettlingRule& rule) {
    session.prepare_as_it_is();
    std::map<Quantity, Settling> settling;
    Measured measured;
    while (!measured.over && !measured.silent) {
        const SessionEvent event = session.next(longest_silence);
        if (const auto* over = std::get_if<LinkOver>(&event)) measured.over = over->outcome;
        measured.silent = std::holds_alternative<Silence>(event);
        const auto* stamped = std::get_if<StampedReading>(&event);
        if (!stamped) continue;
        const Quantity quantity = stamped->reading.quantity;
        measured.raw.push_back(*stamped);
        if (std::ranges::find(measured.readings, quantity, &Reading::quantity) != measured.readings.end())
            continue;
        if (auto reading = settling.try_emplace(quantity, rule).first->second.offer(*stamped))
            measured.readings.push_back(*std::move(reading));
    }
    return measured;
}

/// Adds what had not settled when the capture ended; false where there was nothing to add.
bool add_unsettled(Measured& measured) {
    const std::size_t settled = measured.readings.size();
    std::map<Quantity, std::vector<StampedReading>> taken;
    for (const StampedReading& each : measured.raw)
        taken[each.reading.quantity].push_back(each);
    for (const auto& [quantity, all] : taken) {
        if (std::ranges::find(measured.readings, quantity, &Reading::quantity) != measured.readings.end())
            continue;
        std::optional<Reading> reading = all.front().reading;
        Settling settling({.readings = all.size(), .give_up_after = std::chrono::milliseconds(0)});
        for (const StampedReading& each : all)
            if (all.size() > 1) reading = settling.offer(each);
        measured.readings.push_back(*reading);
    }
    return measured.readings.size() > settled;
}

std::string words_of(const std::optional<MeasurementRequest>& request) {
    return request ? to_text(*request) : "";
}

/// Gives the part its place on the coil, which no command tells.
void take_heading(RecordedPart& part) {
    const auto& heading = part.capture.request;
    if (!part.request) part.request = heading;
    if (!heading) return;
    part.request->between = heading->between;
    part.request->coil = heading->coil;
    if (heading->quantity == Quantity::insulation_resistance &&
        part.request->quantity == Quantity::dc_resistance)
        part.request->quantity = Quantity::insulation_resistance;
}

Link link_to(const Capture& part) {
    const auto clock = std::make_shared<ReplayClock>(part.began);
    return {.transport = std::make_unique<ReplayTransport>(part, clock),
            .clock = clock,
            .recorded_request = part.request};
}

} // namespace

std::vector<RecordedPart> recorded_parts(const Capture& capture, const Driver& driver) {
    Capture head = capture;
    head.events.clear();
    std::vector<RecordedPart> parts{{std::nullopt, head}};
    SetupTrail trail(driver);
    bool polled = false;
    for (const CaptureEvent& event : capture.events) {
        if (event.kind == CaptureEvent::Kind::sent && driver.poll) {
            const std::string command = without_terminator(event.bytes);
            trail.follow(command);
            const auto request = trail.request();
            if (polled && words_of(request) != words_of(parts.back().request)) {
                parts.push_back({std::nullopt, head});
                polled = false;
            }
            parts.back().request = request;
            polled = polled || command == driver.poll->command;
        }
        parts.back().capture.events.push_back(event);
    }
    for (RecordedPart& part : parts)
        take_heading(part);
    return parts;
}

std::vector<Measured> replayed(const BenchMeter& meter, const SettlingRule& rule) {
    std::vector<Measured> all;
    for (const RecordedPart& part : recorded_parts(*meter.replay, *meter.driver)) {
        MeterSession session(*meter.driver, link_to(part.capture));
        all.push_back(part.request ? measure(session, *part.request, rule, longest_silence)
                                   : measure_as_it_is(session, rule));
        if (!add_unsettled(all.back())) all.back().over.reset();
    }
    return all;
}

} // namespace coilward
