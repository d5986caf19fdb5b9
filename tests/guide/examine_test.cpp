#include "guide/scripted_bench.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Workshop;

Reading temperature(double value) {
    return {.quantity = Quantity::temperature, .value = value};
}

const StoredReading* kept_of(const std::vector<StoredReading>& all, Quantity quantity) {
    const auto found =
        std::ranges::find_if(all, [&](const auto& each) { return each.reading.quantity == quantity; });
    return found == all.end() ? nullptr : &*found;
}

/// Reading lines begin with the reading, progress lines with a fault's title.
bool tells_a_reading(const std::string& line, const std::vector<StoredReading>& kept) {
    return std::ranges::any_of(
        kept, [&](const auto& each) { return line.starts_with(describe(each.reading) + ": "); });
}

TEST(Examine, BeginsWithTheTemperatureThenTheDcResistance) {
    Workshop shop;
    shop.attach("lcr-fetch-ab", "lcr");
    shop.attach("dmm-scpi", "dmm");
    shop.person.tells["temperature"] = temperature(20.0);
    shop.person.tells["polarity"] = {.quantity = Quantity::polarity, .polarity = Polarity::as_expected};
    const Examined examined = shop.examine();
    EXPECT_EQ(shop.person.told.front(), "temperature");
    EXPECT_EQ(shop.person.placed.front(), "DC resistance");
    EXPECT_THAT(shop.person.told, Contains("polarity"));
    EXPECT_EQ(examined.diagnosis.verdict.fault, "healthy");
    EXPECT_TRUE(examined.lost.empty());
    EXPECT_EQ(shop.kept().size(), examined.readings);
}

TEST(Examine, SaysWhereAVerdictRestsOnADraft) {
    const auto says_draft = [](const Examined& examined) {
        return std::ranges::any_of(examined.diagnosis.notes, [](const std::string& note) {
            return note.starts_with("dmm-hand-scpi is a draft: compare its readings");
        });
    };
    Workshop shop;
    shop.attach("dmm-hand-scpi", "dmm");
    EXPECT_TRUE(says_draft(shop.examine({temperature(20.0)})));
    Workshop checked;
    checked.attach("dmm-scpi", "dmm");
    EXPECT_FALSE(says_draft(checked.examine({temperature(20.0)})));
}

TEST(Examine, AsksNothingTwice) {
    Workshop shop;
    shop.attach("lcr-fetch-ab", "lcr");
    shop.attach("dmm-scpi", "dmm");
    shop.examine({temperature(20.0)});
    EXPECT_THAT(shop.person.told, Not(Contains("temperature"))) << "it was told beforehand";
    auto placed = shop.person.placed;
    std::ranges::sort(placed);
    EXPECT_TRUE(std::ranges::adjacent_find(placed) == placed.end()) << ::testing::PrintToString(placed);
}

TEST(Examine, OfANewWindingAsksWhatItsConfirmationNeeds) {
    const auto insulation = [](const Workshop& shop) {
        return kept_of(shop.kept(), Quantity::insulation_resistance) != nullptr;
    };
    Workshop rewound;
    rewound.coil.visit.rewound = true;
    rewound.attach("dmm-scpi", "dmm");
    rewound.attach("lcr-fetch-ab", "lcr");
    rewound.person.tells["polarity"] = {.quantity = Quantity::polarity, .polarity = Polarity::as_expected};
    rewound.examine({temperature(20.0)});
    EXPECT_TRUE(insulation(rewound));
    EXPECT_TRUE(kept_of(rewound.kept(), Quantity::inductance));
    EXPECT_TRUE(kept_of(rewound.kept(), Quantity::polarity));
}

TEST(Examine, GoesOnWithAVisitWhereItWasBrokenOff) {
    Workshop shop;
    shop.attach("lcr-fetch-ab", "lcr");
    shop.attach("dmm-hand-scpi", "dmm");
    shop.person.places["DC resistance"] = Reply::ready;
    shop.person.places["AC resistance at 1 kHz"] = Reply::stop;
    shop.examine({temperature(20.0)});
    const auto before = shop.kept();
    EXPECT_THAT(shop.person.placed, ElementsAre("DC resistance", "AC resistance at 1 kHz"));
    shop.person.placed.clear();
    shop.person.told.clear();
    shop.person.places.erase("AC resistance at 1 kHz");
    const Examined examined = shop.examine();
    EXPECT_THAT(shop.person.placed, Not(Contains("DC resistance")));
    EXPECT_THAT(shop.person.told, Not(Contains("temperature")));
    EXPECT_GT(shop.kept().size(), before.size());
    EXPECT_EQ(shop.kept().size(), examined.readings) << "those of both sittings";
    EXPECT_THAT(examined.diagnosis.notes, Contains(HasSubstr("dmm-hand-scpi is a draft")))
        << "also where only the first sitting used it";
    EXPECT_EQ(shop.history.visits_of(shop.coil.pickup.id).size(), 1U);
    EXPECT_EQ(shop.history.verdicts_of(shop.coil.visit.id).size(), 2U);
}

TEST(Examine, TellsWhatIsKnownAndWhatTheMeterShowsAsItGoes) {
    struct Watcher : testing::ScriptedPerson {
        std::size_t learned = 0;
        std::vector<double> seen;

        void learn(const Diagnosis& diagnosis) override {
            EXPECT_FALSE(diagnosis.faults.empty());
            ++learned;
        }

        bool see(const StampedReading& stamped) override {
            if (stamped.reading.value) seen.push_back(*stamped.reading.value);
            return true;
        }
    } watcher;

    Workshop shop;
    shop.attach("dmm-scpi", "dmm");
    watcher.places = {{"DC resistance", Reply::ready}};
    const CoilOnBench coil = shop.coil;
    examine({.rules = shop.rules,
             .history = shop.history,
             .clock = shop.clock,
             .meters = shop.meters,
             .person = watcher},
            coil, {temperature(20.0)});
    EXPECT_GE(watcher.learned, 2U) << "before and after the reading";
    EXPECT_THAT(watcher.seen, ::testing::Each(::testing::DoubleNear(6250.0, 5.0)));
    EXPECT_GE(watcher.seen.size(), 4U);
}

TEST(Examine, KeepsEveryReadingWithItsBytesBeforeItIsTold) {
    Workshop shop;
    shop.attach("dmm-scpi", "tcp://192.168.1.20:5025");
    std::size_t told = 0;
    shop.person.while_hearing = [&](const std::string& line) {
        const auto on_disk = History(shop.folder.path()).readings_of(shop.coil.visit.id);
        if (tells_a_reading(line, on_disk)) ++told;
        EXPECT_GE(on_disk.size(), told) << line;
    };
    shop.examine({temperature(20.0)});
    const auto kept = shop.kept();
    EXPECT_EQ(told, kept.size());
    const auto* resistance = kept_of(kept, Quantity::dc_resistance);
    ASSERT_TRUE(resistance);
    EXPECT_EQ(resistance->meter, "dmm-scpi");
    EXPECT_EQ(resistance->port, "tcp://192.168.1.20:5025");
    EXPECT_EQ(resistance->raw, "+6.24999902E+03\n+6.24999902E+03\n+6.24999902E+03\n+6.24999902E+03\n");
    EXPECT_DOUBLE_EQ(resistance->reading.value.value(), 6249.99902);
    EXPECT_EQ(kept_of(kept, Quantity::temperature)->meter, "") << "a person told it";
}

TEST(Examine, UsesWhatTheMeterShowsBeside) {
    Workshop shop;
    shop.attach("lcr-fetch-ab", "lcr");
    shop.examine({temperature(20.0)});
    const auto kept = shop.kept();
    ASSERT_TRUE(kept_of(kept, Quantity::inductance));
    EXPECT_TRUE(kept_of(kept, Quantity::ac_resistance) || kept_of(kept, Quantity::quality_factor));
}

TEST(Examine, KeepsTheVerdictOfTheVisit) {
    Workshop shop;
    shop.attach("dmm-scpi", "dmm");
    const Examined examined = shop.examine({temperature(20.0)});
    const auto verdicts = shop.history.verdicts_of(shop.coil.visit.id);
    ASSERT_EQ(verdicts.size(), 1U);
    EXPECT_EQ(verdicts.front().fault, examined.diagnosis.verdict.fault);
    EXPECT_EQ(verdicts.front().healthy, examined.diagnosis.verdict.fault == "healthy");
    EXPECT_THAT(verdicts.front().document, HasSubstr("\"comparisons\""));
}

/// A coil of 7.0 kΩ, of which 800 Ω lie in a joint that lets go for a moment when it is pressed.
SimulatedCoil loose_coil(std::shared_ptr<std::optional<Handling>> handling) {
    return [handling, count = 0](Quantity quantity, Circuit, double) mutable -> std::optional<double> {
        if (quantity != Quantity::dc_resistance) return std::nullopt;
        return *handling == Handling::pressed && ++count % 3 == 0 ? 7900.0 : 7000.0;
    };
}

TEST(Examine, AsksToPressTheJointsAndSeesThemJump) {
    Workshop shop;
    auto script = std::make_shared<Script>();
    shop.meters.push_back(
        testing::simulated(shipped_driver("dmm-scpi"), loose_coil(shop.person.handling), script, "dmm"));
    const Examined examined = shop.examine({temperature(20.0)});
    EXPECT_THAT(shop.person.placed, Contains("DC resistance with the joints pressed"));
    const auto kept = shop.kept();
    const auto pressed = std::ranges::find_if(
        kept, [](const auto& each) { return each.reading.handling == Handling::pressed; });
    ASSERT_NE(pressed, kept.end());
    EXPECT_EQ(pressed->reading.state, State::unstable);
    EXPECT_FALSE(pressed->raw.empty());
    EXPECT_EQ(examined.diagnosis.verdict.fault, "partial-break");
    EXPECT_TRUE(std::ranges::any_of(examined.diagnosis.reasons, [](const Reason& reason) {
        return reason.reading == "DC resistance with the joints pressed" && reason.decibans > 10.0;
    }));
}

TEST(Examine, GoesOnWithoutWhatIsSkipped) {
    Workshop shop;
    shop.attach("dmm-scpi", "dmm");
    shop.person.places["DC resistance"] = Reply::skip;
    shop.examine({temperature(20.0)});
    EXPECT_EQ(std::ranges::count(shop.person.placed, "DC resistance"), 1);
    EXPECT_GT(shop.person.placed.size(), 1U);
    EXPECT_FALSE(kept_of(shop.kept(), Quantity::dc_resistance));
}

TEST(Examine, StopsWhereThePersonStops) {
    Workshop shop;
    shop.attach("dmm-scpi", "dmm");
    shop.person.places["DC resistance"] = Reply::stop;
    const Examined examined = shop.examine({temperature(20.0)});
    EXPECT_THAT(shop.person.placed, ElementsAre("DC resistance"));
    EXPECT_EQ(examined.readings, 1U);
    EXPECT_EQ(shop.history.verdicts_of(shop.coil.visit.id).size(), 1U);
}

TEST(Examine, LeavesNoVisitWhereNothingWasRead) {
    Workshop shop;
    shop.attach("dmm-scpi", "dmm");
    shop.person.places["DC resistance"] = Reply::stop;
    EXPECT_EQ(shop.examine().readings, 0U);
    EXPECT_TRUE(shop.history.visits_of(shop.coil.pickup.id).empty());
}

TEST(Examine, WaitsForAMeterThatWasUnplugged) {
    Workshop shop;
    const auto script = shop.attach("dmm-scpi", "/dev/ttyUSB0");
    script->pulled = true;
    shop.person.mends = {Reply::ready, Reply::ready};
    shop.person.before_mending = [&] { script->pulled = shop.person.troubles.size() < 2; };
    const Examined examined = shop.examine({temperature(20.0)});
    const std::string gone = "/dev/ttyUSB0: the meter is gone; check its plug";
    EXPECT_THAT(shop.person.troubles, ElementsAre(gone, gone));
    EXPECT_TRUE(kept_of(shop.kept(), Quantity::dc_resistance));
    EXPECT_TRUE(examined.lost.empty());
}

TEST(Examine, GoesOnWithTheOtherMeterWhereOneIsGone) {
    Workshop shop;
    shop.attach("dmm-scpi", "dmm")->pulled = true;
    shop.attach("lcr-fetch-ab", "lcr");
    shop.person.mends = {Reply::skip};
    const Examined examined = shop.examine({temperature(20.0)});
    EXPECT_THAT(examined.lost, ElementsAre("dmm: the meter is gone; check its plug"));
    EXPECT_TRUE(kept_of(shop.kept(), Quantity::inductance));
}

TEST(Examine, SaysThatAMeterIsSilent) {
    Workshop shop;
    shop.attach("dmm-scpi", "dmm")->answer = [](const std::string&) { return ""; };
    shop.person.mends = {Reply::stop};
    const Examined examined = shop.examine({temperature(20.0)});
    EXPECT_THAT(
        shop.person.troubles,
        ElementsAre("dmm: the meter is silent; check that it is on and that its output is switched on"));
    EXPECT_EQ(examined.lost, shop.person.troubles);
}

TEST(Examine, SaysThatAMeterThatIsSetByHandShowsSomethingElse) {
    Workshop shop;
    auto script = std::make_shared<Script>();
    // 7.352 V: unit code 34 of the protocol that captures/stx16 documents.
    for (int i = 0; i < 6; ++i)
        script->pieces.emplace_back("\x02"
                                    "4134030000"
                                    "7352\x0D");
    BenchMeter meter;
    meter.driver = &shipped_driver("stx16");
    meter.port = "/dev/ttyUSB1";
    meter.open = [script] { return scripted_link(script); };
    shop.meters.push_back(std::move(meter));
    shop.person.mends = {Reply::stop};
    shop.examine({temperature(20.0)});
    EXPECT_THAT(shop.person.by_hand, ElementsAre("Turn the meter to resistance and start its output."));
    EXPECT_THAT(shop.person.troubles,
                ElementsAre("/dev/ttyUSB1: the meter shows DC voltage, not DC resistance; set it for that"));
}

TEST(Examine, KeepsAnOverRangeAsWhatItIs) {
    Workshop shop;
    auto script = std::make_shared<Script>();
    shop.meters.push_back(testing::simulated(
        shipped_driver("dmm-scpi"), [](Quantity, Circuit, double) { return std::optional<double>(); }, script,
        "dmm"));
    const Examined examined = shop.examine({temperature(20.0)});
    EXPECT_EQ(kept_of(shop.kept(), Quantity::dc_resistance)->reading.state, State::over_range);
    EXPECT_THAT(shop.person.heard, Contains("DC resistance: over range"));
    EXPECT_EQ(examined.diagnosis.verdict.fault, "open");
}

TEST(Examine, KeepsAWanderingReadingAsEvidence) {
    Workshop shop;
    auto script = std::make_shared<Script>();
    const auto wandering = [turn = 0](Quantity, Circuit, double) mutable {
        return std::optional(++turn % 2 == 0 ? 6000.0 : 9000.0);
    };
    shop.meters.push_back(testing::simulated(shipped_driver("dmm-scpi"), wandering, script, "dmm"));
    shop.examine({temperature(20.0)});
    const auto kept = shop.history.readings_of(shop.coil.visit.id);
    const auto* resistance = kept_of(kept, Quantity::dc_resistance);
    ASSERT_TRUE(resistance);
    EXPECT_EQ(resistance->reading.state, State::unstable);
    EXPECT_DOUBLE_EQ(resistance->reading.spread.value(), 1500.0);
}

TEST(Examine, OfOneCoilOfSeveralReadsThatCoilOnly) {
    Workshop shop;
    shop.coil.pickup = shop.history.add_pickup({.id = random_id(),
                                                .added_at = shop.clock.now(),
                                                .name = "Bridge",
                                                .owner = {},
                                                .instrument = {},
                                                .pickup_type = "dual-coil-series",
                                                .coils = {{"slug", "six-rod-42"}, {"screw", "screw-coil-42"}},
                                                .notes = {}});
    shop.coil.visit.pickup = shop.coil.pickup.id;
    shop.coil.coil = "slug";
    shop.attach("dmm-scpi", "dmm");
    const Examined examined = shop.examine({temperature(20.0)});
    EXPECT_EQ(examined.diagnosis.coil_model, "six-rod-42");
    EXPECT_EQ(kept_of(shop.kept(), Quantity::dc_resistance)->reading.coil, "slug");
    EXPECT_EQ(shop.history.verdicts_of(shop.coil.visit.id).front().coil, "slug");
}

} // namespace
} // namespace coilward
