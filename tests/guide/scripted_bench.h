#pragma once

#include "bench/scripted_meter.h"
#include "bench/simulated_meter.h"
#include "coil/impedance.h"
#include "diagnosis/read_form.h"
#include "guide/examine.h"
#include "history/temporary_folder.h"
#include "meter/shipped_driver.h"

#include <deque>
#include <map>
#include <numbers>
#include <string>
#include <vector>

namespace coilward::testing {

/// Answers from a list, and keeps all that was said.
struct ScriptedPerson : Person {
    /// By the question; ready where it is not here. Of the kick the person tells, unless a test has a pole.
    std::map<std::string, Reply> places{{"polarity", Reply::skip}};
    std::map<std::string, Reading> tells; ///< by the question; skipped where it is not here
    std::shared_ptr<CoilPort> probes = std::make_shared<CoilPort>(CoilPort::leads);
    /// What is done to the coil, as told last.
    std::shared_ptr<std::optional<Handling>> handling = std::make_shared<std::optional<Handling>>();
    std::deque<Reply> mends; ///< in order; stop when used up
    std::function<void()> before_mending = [] {};
    std::function<void(const std::string&)> while_hearing = [](const std::string&) {};
    std::vector<std::string> placed, told, hows, troubles, heard, by_hand;

    Reply place(const Instruction& instruction) override {
        const auto question = describe(instruction.question);
        placed.push_back(question);
        *probes = port_of(instruction.question.between).value();
        *handling = instruction.question.handling;
        by_hand.push_back(instruction.by_hand);
        const auto found = places.find(question);
        return found == places.end() ? Reply::ready : found->second;
    }

    Told tell(const Instruction& instruction) override {
        const auto question = describe(instruction.question);
        told.push_back(question);
        hows.push_back(instruction.how);
        const auto found = tells.find(question);
        if (found == tells.end()) return {Reply::skip, std::nullopt};
        return {Reply::ready, found->second};
    }

    Reply mend(const std::string& trouble) override {
        troubles.push_back(trouble);
        before_mending();
        if (mends.empty()) return Reply::stop;
        const Reply reply = mends.front();
        mends.pop_front();
        return reply;
    }

    void hear(const std::string& line) override {
        heard.push_back(line);
        while_hearing(line);
    }
};

/// A meter in the test's hand that speaks as a simulated one, on a clock that only the test moves.
inline BenchMeter simulated(const Driver& driver, SimulatedCoil coil, std::shared_ptr<Script> script,
                            const std::string& port) {
    auto meter = std::make_shared<SimulatedMeter>(driver, std::move(coil));
    script->answer = [meter](const std::string& bytes) { return meter->answer(bytes); };
    BenchMeter bench;
    bench.driver = &driver;
    bench.port = port;
    bench.open = [script] { return scripted_link(script); };
    return bench;
}

/// A sound coil of six-rod-42 at 20 °C as a meter sees it where the probes are; nothing beyond 100 MΩ.
inline SimulatedCoil sound_coil(std::shared_ptr<CoilPort> probes) {
    const Coil coil{.turns = 7900,
                    .ohm_per_turn_20 = 6250.0 / 7900,
                    .henry_per_turn2 = 2.45 / (7900.0 * 7900.0),
                    .self_capacitance_f = 120e-12,
                    .frame_capacitance_f = 45e-12,
                    .eddy_share = 0.05,
                    .eddy_time_s = 3e-5};
    return [coil, probes = std::move(probes)](Quantity quantity, Circuit circuit,
                                              double frequency_hz) -> std::optional<double> {
        const auto z = impedance(coil, NoFault{}, *probes, frequency_hz);
        if (std::abs(z) > 1e8) return std::nullopt;
        const auto form = read_form(quantity, circuit, z, 2.0 * std::numbers::pi * frequency_hz);
        return form ? std::optional(form->value) : std::nullopt;
    };
}

/// A pickup with one coil in a history of its own, and its rules.
struct Workshop {
    TemporaryFolder folder;
    Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    History history{folder.path()};
    TestClock clock;
    ScriptedPerson person;
    std::vector<BenchMeter> meters;
    CoilOnBench coil;

    Workshop() {
        coil.pickup = history.add_pickup({.id = random_id(),
                                          .added_at = clock.now(),
                                          .name = "Neck",
                                          .owner = {},
                                          .instrument = {},
                                          .pickup_type = {},
                                          .coils = {{"", "six-rod-42"}},
                                          .notes = {}});
        coil.visit = {.id = random_id(), .pickup = coil.pickup.id, .at = clock.now(), .stage = "as received"};
    }

    Examined examine(const std::vector<Reading>& told = {}) {
        return coilward::examine(
            {.rules = rules, .history = history, .clock = clock, .meters = meters, .person = person}, coil,
            told);
    }

    /// A simulated meter of this driver on the sound coil; its script is given back.
    std::shared_ptr<Script> attach(std::string_view driver, const std::string& port) {
        auto script = std::make_shared<Script>();
        meters.push_back(simulated(shipped_driver(driver), sound_coil(person.probes), script, port));
        return script;
    }

    std::vector<StoredReading> kept() const { return history.readings_of(coil.visit.id); }
};

} // namespace coilward::testing
