#pragma once

#include "bench/port.h"
#include "meter/decoder.h"
#include "meter/driver.h"
#include "meter/measurement.h"

#include <chrono>
#include <deque>
#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <variant>

namespace coilward {

/// A reading as it left the meter: when, from which driver, and the bytes it was decoded from.
struct StampedReading {
    Moment at{};             ///< when it was decoded, by the session's clock
    std::string meter;       ///< driver id
    Reading reading;         ///< as it was requested (measurement.h)
    double resolution = 0.0; ///< one step of the last digit, SI unit; 0 where there is no number
    std::string raw;         ///< the frame's bytes, unchanged
    std::string note;        ///< as Frame::note
};

/// No reading within the time that was given.
struct Silence {
    std::size_t bytes =
        0; ///< that arrived meanwhile and made no reading: check speed and parity where there are many
};

/// The link is over: `unplugged` or `ended`.
struct LinkOver {
    LinkOutcome outcome = LinkOutcome::unplugged; ///< never another
};

/// What waiting for a reading ends with.
using SessionEvent = std::variant<StampedReading, Silence, LinkOver>;

/// What the driver's meter cannot do, as one line.
struct CannotMeasure : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// One conversation with one meter. The same for a device, a network address and a replay. The driver must
/// outlive it. A lost device or a capture's end is an event; whatever else is wrong with the line leaves
/// every function that sends or reads as TransportError.
class MeterSession {
public:
    /// Takes over the link. Nothing is sent before prepare, prepare_as_it_is or identity.
    MeterSession(const Driver&, Link);

    /// Sets the meter for the request by the driver's commands. Readings from now on are of that request;
    /// what is still in the line from before is thrown away. Gives back the setup, whose `by_hand` tells the
    /// person what is left to do. Throws CannotMeasure where the driver has no such setup.
    const MeterSetup& prepare(const MeasurementRequest&);

    /// Takes the meter as it is: asks it what it is set to and leaves that. Where it does not say, its first
    /// setup is carried out, so that a reply's meaning is known.
    void prepare_as_it_is();

    /// The next reading, polled or streamed, within `patience`.
    SessionEvent next(std::chrono::milliseconds patience);

    /// The meter's answer to the driver's identity question; nothing where it has none or does not answer.
    std::optional<std::string> identity();

    /// Of all bytes so far, by what they were.
    const VerdictCounts& counts() const { return decoder_.counts(); }

    /// What the last frame that was no reading said about itself, as "the meter has no measurement yet"; may
    /// be empty.
    const std::string& last_note() const { return last_note_; }

    /// By which it waits and stamps.
    const Clock& clock() const { return *link_.clock; }

private:
    static constexpr std::size_t longest_answer = 400; ///< bytes
    static constexpr int most_waiting = 1000;          ///< pieces in a line, so that no babbler holds it up

    using IsAnswer = std::function<bool(const std::string& line)>;

    std::chrono::milliseconds elapsed() const { return link_.clock->elapsed(); }

    void end_link(LinkOutcome);
    void send(const std::string& command);
    std::optional<std::string> command(const std::string& text);
    void set_up(const std::string& command);
    std::optional<std::string> await_line(const std::string& question, const IsAnswer&);
    std::optional<std::string> ask(const std::string& question, const IsAnswer&);
    std::optional<std::string> ask_function();
    std::optional<double> ask_frequency();
    void send_start_commands();
    void carry_out(const MeterSetup&, std::optional<double> frequency_hz);
    void confirm(const MeterSetup&, MeterSetting&);
    std::optional<MeterSetting> setting_by_questions();
    void begin_readings(const MeterSetting&);
    void empty_line(const std::function<void(const std::string& bytes)>& use); ///< of what waits in it
    void poll_when_due();
    void receive(std::chrono::milliseconds at_most);
    void take(const std::string& bytes);
    void take(Frame&);

    const Driver* driver_;
    Link link_;
    Decoder decoder_;
    std::optional<MeasurementRequest> request_;
    std::deque<StampedReading> ready_;
    std::string last_note_;
    std::optional<LinkOutcome> over_;
    bool started_ = false;
    bool was_read_ = false; ///< before that nothing of this conversation can wait in the line
    bool answers_questions_ = true;
    bool answers_commands_ = true;
    bool heard_ = false;                                  ///< anything, since the last question
    std::optional<std::chrono::milliseconds> answer_due_; ///< while a poll is unanswered
    std::chrono::milliseconds poll_at_{0};                ///< earliest next poll
};

} // namespace coilward
