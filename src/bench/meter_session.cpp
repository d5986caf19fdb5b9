#include "bench/meter_session.h"

#include "bench/echoed_transport.h"
#include "meter/line_fields.h"
#include "meter/line_names.h"
#include "meter/line_scan.h"
#include "meter/numeric_response.h"
#include "meter/uncertainty.h"
#include "toml/utf8.h"

#include <algorithm>
#include <span>
#include <utility>

#include <fmt/format.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;

std::string ability(const MeterSetup& setup) {
    if (!setup.lowest_frequency_hz) return setup.name;
    if (setup.lowest_frequency_hz == setup.highest_frequency_hz)
        return fmt::format("{} at {} Hz", setup.name, *setup.lowest_frequency_hz);
    return fmt::format("{} at {} to {} Hz", setup.name, *setup.lowest_frequency_hz,
                       *setup.highest_frequency_hz);
}

/// What the meter can do, for a person whose wish it cannot fulfil: of the wished quantity, or else of any.
/// One line, so that the last of many are only counted.
std::string abilities_beside(const Driver& driver, Quantity wished) {
    constexpr std::size_t most_told = 6;
    std::vector<std::string> of_the_quantity;
    std::vector<std::string> names;
    for (const MeterSetup& setup : driver.setups) {
        names.push_back(ability(setup));
        if (std::ranges::count(setup.gives, wished) > 0) of_the_quantity.push_back(names.back());
    }
    if (!of_the_quantity.empty()) names = of_the_quantity;
    if (names.size() <= most_told) return fmt::format("{}", fmt::join(names, ", "));
    const auto told = std::span(names).first(most_told);
    return fmt::format("{}, and {} more", fmt::join(told, ", "), names.size() - most_told);
}

std::optional<double> positive_number(const std::string& text) {
    const auto number = numeric_response(text);
    if (!number || !(number->value > 0.0)) return std::nullopt;
    return number->value;
}

/// "+0,"No error"" against the ways in which no error is said; nothing where the answer is no error report at
/// all.
std::optional<bool> is_free_of_errors(const std::string& answer, const std::vector<std::string>& no_error) {
    if (std::ranges::any_of(no_error, [&](const std::string& text) { return answer.starts_with(text); }))
        return true;
    const bool report = answer.find(",\"") != std::string::npos;
    return report ? std::optional(false) : std::nullopt;
}

} // namespace

MeterSession::MeterSession(const Driver& driver, Link link)
    : driver_(&driver), link_(std::move(link)), decoder_(driver) {
    if (driver.echoes_characters)
        link_.transport = std::make_unique<EchoedTransport>(std::move(link_.transport));
    if (link_.transport->starts_at_a_frame()) decoder_.begin_frame();
}

const MeterSetup& MeterSession::prepare(const MeasurementRequest& request) {
    const MeterSetup* setup = setup_for(*driver_, request);
    if (!setup)
        throw CannotMeasure(fmt::format("{} cannot measure {}; it can measure {}", driver_->id,
                                        to_text(request), abilities_beside(*driver_, request.quantity)));
    request_ = request;
    carry_out(*setup, frequency_for(*setup, request));
    return *setup;
}

void MeterSession::prepare_as_it_is() {
    request_.reset();
    send_start_commands();
    if (const auto setting = setting_by_questions()) {
        begin_readings(*setting);
        return;
    }
    const MeterSetup& first = driver_->setups.front();
    carry_out(first, frequency_for(first, {}));
}

SessionEvent MeterSession::next(milliseconds patience) {
    was_read_ = true;
    const milliseconds deadline = elapsed() + patience;
    const std::size_t bytes_before = decoder_.counts().bytes_that_are_no_reading();
    for (;;) {
        if (!ready_.empty()) {
            StampedReading reading = std::move(ready_.front());
            ready_.pop_front();
            return reading;
        }
        if (over_) return LinkOver{*over_};
        const milliseconds now = elapsed();
        if (now >= deadline) return Silence{decoder_.counts().bytes_that_are_no_reading() - bytes_before};
        poll_when_due();
        const milliseconds wake =
            driver_->poll ? std::min(deadline, answer_due_.value_or(poll_at_)) : deadline;
        receive(std::max(wake - now, milliseconds(1)));
    }
}

std::optional<std::string> MeterSession::identity() {
    if (driver_->queries.identity.empty()) return std::nullopt;
    return ask(driver_->queries.identity, [&](const std::string& line) { // behind an acknowledgement, if any
        return !driver_->line || std::ranges::none_of(driver_->line->asides, [&](const std::string& aside) {
            return is_like(line, aside);
        });
    });
}

void MeterSession::end_link(LinkOutcome outcome) {
    over_ = outcome;
    decoder_.begin_frame(); // what was half received is no reading
}

void MeterSession::send(const std::string& command) {
    if (over_) return;
    const LinkOutcome outcome = link_.transport->write(command + driver_->command_end);
    if (outcome != LinkOutcome::done) end_link(outcome);
}

/// Sends a question and gives the first line that answers it. A meter that sends nothing at all is not asked
/// again: each question costs the person half a second.
std::optional<std::string> MeterSession::ask(const std::string& question, const IsAnswer& is_answer) {
    if (question.empty() || !answers_questions_ || over_) return std::nullopt;
    send(question);
    auto answer = await_line(question, is_answer);
    answers_questions_ = heard_;
    return answer;
}

/// Sends a command and waits until a meter that acknowledges each has done so. Gives back its refusal.
/// Silence is no objection, but is not waited for twice.
std::optional<std::string> MeterSession::command(const std::string& text) {
    send(text);
    const auto is_one_of = [](const std::string& line, const std::vector<std::string>& patterns) {
        return std::ranges::any_of(patterns,
                                   [&](const std::string& pattern) { return is_like(line, pattern); });
    };
    std::optional<std::string> answer;
    if (!driver_->answers.empty() && answers_commands_ && !over_) {
        answer = await_line(text, [&](const std::string& line) {
            return is_one_of(line, driver_->answers) || is_one_of(line, driver_->refusals);
        });
        answers_commands_ = heard_;
    }
    if (driver_->command_pause > milliseconds(0)) link_.clock->wait(driver_->command_pause);
    return answer && is_one_of(*answer, driver_->refusals) ? answer : std::nullopt;
}

/// Throws CannotMeasure where the meter refuses the command.
void MeterSession::set_up(const std::string& text) {
    if (const auto refusal = command(text))
        throw CannotMeasure(fmt::format("{} did not accept \"{}\": it answers {}; set it by hand and let it "
                                        "be read as it is set",
                                        driver_->id, text, shortened(*refusal)));
}

/// The first line that answers what was just sent. Other lines came unasked.
std::optional<std::string> MeterSession::await_line(const std::string& question, const IsAnswer& is_answer) {
    const milliseconds deadline = elapsed() + driver_->queries.answer_within;
    std::string pending;
    std::optional<std::string> answer;
    heard_ = false;
    while (!over_ && !answer && elapsed() < deadline && pending.size() < longest_answer) {
        const Received received = link_.transport->read(deadline - elapsed());
        if (received.outcome == LinkOutcome::unplugged || received.outcome == LinkOutcome::ended)
            end_link(received.outcome);
        heard_ = heard_ || !received.bytes.empty();
        pending += received.bytes;
        for (auto end = std::ranges::find_if(pending, ends_line); end != pending.end();
             end = std::ranges::find_if(pending, ends_line)) {
            const std::string line(trimmed({pending.begin(), end}));
            pending.erase(pending.begin(), end + 1);
            if (line.empty() || line == question) continue;
            if (!answer && is_answer(line))
                answer = line;
            else
                decoder_.count_as(Verdict::not_live, line.size());
        }
    }
    if (!pending.empty()) decoder_.count_as(Verdict::not_live, pending.size());
    return answer;
}

void MeterSession::send_start_commands() {
    if (std::exchange(started_, true)) return;
    for (const std::string& each : driver_->start)
        command(each); // not every meter of a family knows every one
}

void MeterSession::carry_out(const MeterSetup& setup, std::optional<double> frequency_hz) {
    send_start_commands();
    const auto commands = commands_for(setup, frequency_hz);
    for (const std::string& each : commands)
        set_up(each);
    if (!commands.empty()) link_.clock->wait(setup.settle);
    MeterSetting setting = setting_for(setup, frequency_hz);
    confirm(setup, setting);
    begin_readings(setting);
}

/// Asks whether the meter did what it was told. Silence is no objection, but then the end of its range is not
/// known.
void MeterSession::confirm(const MeterSetup& setup, MeterSetting& setting) {
    const auto refuse = [&](const std::string& answer) {
        throw CannotMeasure(
            fmt::format("{} did not accept the set-up for {}: it answers {}; set it by hand and let it "
                        "be read as it is set",
                        driver_->id, setup.name, shortened(answer)));
    };
    const Queries& queries = driver_->queries;
    const auto error = ask(queries.error, [&](const auto& line) {
        return is_free_of_errors(line, queries.no_error).has_value();
    });
    if (error && !*is_free_of_errors(*error, queries.no_error)) refuse(*error);
    if (!queries.error.empty() && !error) setting.range_limit.reset();
    const auto function = ask_function();
    if (function && !is_called(setup, *function)) refuse(*function);
    if (setting.frequency_hz)
        if (const auto frequency = ask_frequency()) setting.frequency_hz = frequency;
}

std::optional<std::string> MeterSession::ask_function() {
    return ask(driver_->queries.function,
               [&](const auto& line) { return setup_called(*driver_, line) != nullptr; });
}

std::optional<double> MeterSession::ask_frequency() {
    const auto answer =
        ask(driver_->queries.frequency, [](const auto& line) { return positive_number(line).has_value(); });
    return answer ? positive_number(*answer) : std::nullopt;
}

std::optional<MeterSetting> MeterSession::setting_by_questions() {
    const auto function = ask_function();
    if (!function) return std::nullopt;
    const MeterSetup& setup = *setup_called(*driver_, *function);
    MeterSetting setting = setting_for(setup, {});
    setting.range_limit.reset(); // of a range that this session did not choose
    if (!setup.lowest_frequency_hz) return setting;
    setting.frequency_hz = ask_frequency();
    if (!setting.frequency_hz) return std::nullopt;
    return setting;
}

/// From here on bytes are readings. A polled meter's line is emptied first. What a stream sent while nobody
/// read it, as while the probes were clipped elsewhere, is decoded and left, so that no frame is cut.
void MeterSession::begin_readings(const MeterSetting& setting) {
    if (!driver_->poll && was_read_) empty_line([this](const std::string& bytes) { take(bytes); });
    decoder_.set(setting);
    ready_.clear();
    last_note_.clear();
    if (!driver_->poll) return;
    empty_line([this](const std::string& bytes) { decoder_.count_as(Verdict::not_live, bytes.size()); });
    answer_due_.reset();
    poll_at_ = elapsed();
}

void MeterSession::empty_line(const std::function<void(const std::string& bytes)>& use) {
    for (int pieces = 0; pieces < most_waiting && !over_; ++pieces) {
        const Received received = link_.transport->read(milliseconds(0));
        if (received.outcome == LinkOutcome::timeout) return;
        if (received.outcome != LinkOutcome::done) return end_link(received.outcome);
        use(received.bytes);
    }
}

void MeterSession::poll_when_due() {
    if (!driver_->poll || over_) return;
    const milliseconds now = elapsed();
    if (answer_due_ ? now < *answer_due_ : now < poll_at_) return;
    // While an answer is still arriving its rest must not be taken for the beginning of the next one.
    if (answer_due_ || !decoder_.is_mid_frame()) decoder_.begin_frame(driver_->poll->command);
    answer_due_ = now + driver_->poll->answer_within;
    send(driver_->poll->command);
}

void MeterSession::receive(milliseconds at_most) {
    if (over_) return;
    const Received received = link_.transport->read(at_most);
    if (received.outcome == LinkOutcome::done) take(received.bytes);
    if (received.outcome == LinkOutcome::unplugged || received.outcome == LinkOutcome::ended)
        end_link(received.outcome);
}

void MeterSession::take(const std::string& bytes) {
    decoder_.feed(bytes, [this](Frame& frame) { take(frame); });
}

void MeterSession::take(Frame& frame) {
    if (frame.verdict == Verdict::aside) return;
    if (frame.verdict != Verdict::reading) last_note_ = frame.note;
    if (driver_->poll) { // answered, be it with nonsense
        answer_due_.reset();
        poll_at_ = elapsed() + driver_->poll->pause;
    }
    const auto quality_factor = quality_factor_of(frame.readings);
    for (DecodedReading& decoded : frame.readings) {
        decoded.reading.standard_uncertainty = standard_uncertainty(*driver_, decoded, quality_factor);
        StampedReading stamped{.at = link_.clock->now(),
                               .meter = driver_->id,
                               .reading = std::move(decoded.reading),
                               .resolution = decoded.resolution,
                               .raw = std::string(frame.bytes),
                               .note = frame.note};
        if (request_) stamped.reading = as_requested(std::move(stamped.reading), *request_);
        ready_.push_back(std::move(stamped));
    }
}

} // namespace coilward
