#include "guide/examine.h"

#include "guide/kin_notes.h"
#include "guide/loss_uncertainty.h"
#include "guide/replay.h"
#include "guide/step.h"
#include "guide/touches.h"
#include "history/history_page.h"
#include "report/verdict_page.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace coilward {
namespace {

/// Why a measurement gave nothing.
struct Trouble {
    std::string text;       ///< what, where, and what to do
    bool of_meter = false;  ///< the meter itself is silent or gone
    bool link_over = false; ///< its port must be opened anew
};

/// For both joints, some seconds each.
constexpr std::chrono::milliseconds time_to_press{8000};

std::string answered(const Reading& reading) {
    return fmt::format("{}: {}", describe(reading), answer_in_words(reading));
}

Trouble trouble_with(const Measured& measured, BenchMeter& meter, const Step& step) {
    if (measured.over) return {fmt::format("{}: the meter is gone; check its plug", meter.port), true, true};
    if (measured.other)
        return {fmt::format("{}: the meter shows {}, not {}; set it for that", meter.port,
                            describe(*measured.other), describe(step.question))};
    if (const std::string& note = meter.conversation().last_note(); !note.empty())
        return {fmt::format("{}: no reading: {}", meter.port, note)};
    return {fmt::format("{}: the meter is silent; check that it is on and that its output is switched on",
                        meter.port),
            true};
}

class Examining {
public:
    Examining(Bench bench, const CoilOnBench& coil)
        : bench_(bench), coil_(coil), record_(bench.history, coil) {}

    Examined run(const std::vector<Reading>& told) {
        go_on_from_what_was_read();
        for (const Reading& reading : told)
            keep(reading);
        for (BenchMeter& meter : bench_.meters)
            if (meter.replay) take_replay(meter);
        const bool live = std::ranges::any_of(bench_.meters, [](const auto& m) { return !m.replay; });
        while (const auto step = think(live))
            if (!carry_out(*step)) break;
        if (record_.readings() > 0) record_.keep(diagnosis_, bench_.rules, bench_.clock.now());
        return {std::move(diagnosis_), record_.readings(), std::move(lost_)};
    }

private:
    /// Judges what is known, says it where it is news, and chooses the next step.
    std::optional<Step> think(bool live) {
        diagnosis_ = diagnose(bench_.rules, record_.examination());
        note_kin(diagnosis_, record_.kin());
        for (const std::string& driver : drafts_)
            diagnosis_.notes.push_back(
                fmt::format("{} is a draft: compare its readings with the meter's display before you trust "
                            "what rests on them",
                            driver));
        bench_.person.learn(diagnosis_);
        std::optional<Step> step;
        if (live) step = next_step(bench_.rules, diagnosis_, asked_, bench_.meters);
        if (live && !step && coil_.visit.rewound)
            step = step_of_a_rewind(bench_.rules, asked_, bench_.meters);
        if (record_.readings() > told_of_) {
            bench_.person.hear(
                progress_line(diagnosis_, bench_.rules, step ? describe(step->question) : std::string()));
            told_of_ = record_.readings();
        }
        if (step) step->question.coil = coil_.coil;
        return step;
    }

    /// Of a visit that was begun before: nothing that was read is asked again.
    void go_on_from_what_was_read() {
        for (const StoredReading& stored : record_.kept()) {
            asked_.push_back(stored.reading);
            for (const BenchMeter& meter : bench_.meters)
                if (meter.driver->id == stored.meter && meter.driver->status == DriverStatus::draft)
                    drafts_.insert(stored.meter);
        }
    }

    void keep(const Reading& reading) {
        record_.keep(reading, bench_.clock.now());
        remember(reading);
    }

    void keep(Measured measured, const BenchMeter& meter, const std::string& remark = {}) {
        add_loss_uncertainty(measured.readings);
        record_.keep(measured, meter, remark);
        if (meter.driver->status == DriverStatus::draft) drafts_.insert(meter.driver->id);
        for (const Reading& reading : measured.readings)
            remember(reading);
    }

    void remember(const Reading& reading) {
        asked_.push_back(reading);
        bench_.person.hear(answered(reading));
    }

    void take_replay(BenchMeter& meter) {
        for (Measured& measured : replayed(meter, bench_.settling)) {
            for (Reading& reading : measured.readings)
                if (reading.coil.empty()) reading.coil = coil_.coil;
            if (measured.readings.empty()) continue;
            keep(measured, meter, measured.over ? "the capture ended with it" : "");
            think(false);
        }
    }

    /// False where the examination is to end.
    bool carry_out(const Step& step) {
        asked_.push_back(step.question);
        if (!step.meter) return ask_person(step);
        const auto request = request_for(step.question);
        const MeterSetup& setup = *setup_for(*step.meter->driver, request);
        const Reply reply = bench_.person.place({step.question, step.how, step.meter->driver->id,
                                                 instruction_for(setup, frequency_for(setup, request))});
        return reply == Reply::ready ? take(step) : reply == Reply::skip;
    }

    /// The person tells it; of a kick what a multimeter at hand saw is said with the question, and kept.
    bool ask_person(const Step& step) {
        const bool is_kick = step.question.quantity == Quantity::polarity;
        const SeenKick seen = is_kick ? see_kick(step) : SeenKick{};
        const Told told = bench_.person.tell({step.question, seen.words + step.how, "", ""});
        if (told.reading && seen.meter)
            keep({.readings = {*told.reading}, .raw = seen.raw}, *seen.meter, seen.words);
        else if (told.reading)
            keep(*told.reading);
        return told.reply != Reply::stop;
    }

    struct SeenKick {
        std::string words; ///< the beginning of the question; empty where no meter saw it
        std::vector<StampedReading> raw;
        BenchMeter* meter = nullptr;
    };

    SeenKick see_kick(const Step& step) {
        const MeasurementRequest volts{.quantity = Quantity::dc_voltage, .coil = coil_.coil};
        BenchMeter* meter = live_meter_for(volts, bench_.meters);
        if (!meter) return {};
        const MeterSetup& setup = *setup_for(*meter->driver, volts);
        const Instruction instruction{step.question, step.how, meter->driver->id,
                                      instruction_for(setup, std::nullopt)};
        if (bench_.person.place(instruction) != Reply::ready) return {};
        try {
            meter->conversation().prepare(volts);
            KickTest test = watch_touches(meter->conversation(), bench_.person, bench_.patience);
            if (test.link_over) meter->session.reset();
            if (test.agreed)
                return {fmt::format("By {}, {}. ", meter->driver->id, kick_in_words(*test.agreed)),
                        std::move(test.raw), meter};
            bench_.person.hear(fmt::format("{}: {}", meter->port, test.trouble));
        } catch (const CannotMeasure& error) {
            bench_.person.hear(error.what());
        } catch (const TransportError& error) {
            meter->session.reset();
            bench_.person.hear(error.what());
        }
        return {};
    }

    /// Measures, and once more as often as the person has mended what hindered.
    bool take(const Step& step) {
        BenchMeter& meter = *step.meter;
        while (const auto trouble = attempt(step)) {
            if (trouble->link_over) meter.session.reset();
            const Reply reply = bench_.person.mend(trouble->text);
            if (reply == Reply::ready) continue;
            if (trouble->of_meter) {
                meter.given_up = true;
                lost_.push_back(trouble->text);
            }
            return reply == Reply::skip;
        }
        return true;
    }

    /// Joints are pressed one after the other: all that is read meanwhile must agree.
    SettlingRule settling_for(const Reading& question) const {
        SettlingRule rule = bench_.settling;
        if (question.handling == Handling::pressed) rule.watch_for = time_to_press;
        return rule;
    }

    std::optional<Trouble> attempt(const Step& step) {
        BenchMeter& meter = *step.meter;
        try {
            Measured measured =
                measure(meter.conversation(), request_for(step.question), settling_for(step.question),
                        bench_.patience, [&](const StampedReading& stamped) { bench_.person.see(stamped); });
            if (measured.readings.empty()) return trouble_with(measured, meter, step);
            for (Reading& reading : measured.readings)
                reading.handling = step.question.handling;
            keep(std::move(measured), meter);
            return std::nullopt;
        } catch (const CannotMeasure& error) {
            return Trouble{error.what()};
        } catch (const TransportError& error) {
            return Trouble{error.what(), true, true};
        }
    }

    Bench bench_;
    const CoilOnBench& coil_;
    VisitRecord record_;
    Diagnosis diagnosis_;
    std::vector<Reading> asked_;
    std::vector<std::string> lost_;
    std::set<std::string> drafts_; ///< draft drivers that gave a reading
    std::size_t told_of_ = 0;      ///< how many readings the last progress line knew
};

} // namespace

Examined examine(Bench bench, const CoilOnBench& coil, const std::vector<Reading>& told) {
    return Examining(bench, coil).run(told);
}

} // namespace coilward
