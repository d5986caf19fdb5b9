#include "guide/scripted_bench.h"
#include "guide/touches.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using testing::ScriptedPerson;
using ::testing::StartsWith;
using testing::Workshop;

/// A pole with a coil behind it and a multimeter that polls it: when the person is told to touch, the next
/// displays show the kick; 0.02 mV of hum otherwise. What is no voltage the meter behind it answers.
struct Pole {
    double kick_volts;
    int left = 0; ///< displays that the kick still takes
    bool odd = false;
    bool on_volts = false;

    void attach(Script& script, ScriptedPerson& person) {
        person.while_hearing = [this](const std::string& line) {
            if (line.starts_with("now touch")) left = 3;
        };
        script.answer = [this, others = script.answer](const std::string& command) {
            if (command.starts_with("CONF")) on_volts = command.find("VOLT") != std::string::npos;
            if (!on_volts || !command.starts_with("READ?")) return others(command);
            odd = !odd;
            const double volts = (left-- > 0 ? kick_volts : 0.0) + (odd ? 1e-5 : -1e-5);
            return fmt::format("{:+.8E}\n", volts);
        };
    }
};

KickTest touched(double kick_volts, ScriptedPerson& person) {
    const Driver& driver = shipped_driver("dmm-scpi");
    auto script = std::make_shared<Script>();
    Pole pole{kick_volts};
    pole.attach(*script, person);
    MeterSession session(driver, scripted_link(script));
    session.prepare({.quantity = Quantity::dc_voltage});
    return watch_touches(session, person, std::chrono::seconds(5));
}

TEST(Touches, AgreeOnTheSign) {
    struct Case {
        double volts;
        Kick::Outcome outcome;
        const char* words;
    };

    for (const Case& each :
         {Case{0.012, Kick::Outcome::positive, "the kick was positive in three touches, 12 mV"},
          Case{-0.04, Kick::Outcome::negative, "the kick was negative in three touches, 40 mV"},
          Case{0.0, Kick::Outcome::none, "there was no kick in three touches"}}) {
        ScriptedPerson person;
        const KickTest test = touched(each.volts, person);
        ASSERT_TRUE(test.agreed) << test.trouble;
        EXPECT_EQ(test.agreed->outcome, each.outcome);
        EXPECT_THAT(kick_in_words(*test.agreed), StartsWith(each.words));
        EXPECT_EQ(std::ranges::count(person.heard, "now touch the pole with the steel, and leave it there"),
                  3);
        EXPECT_FALSE(test.raw.empty());
    }
}

TEST(Touches, AreAskedForInAnExaminationAndKept) {
    Workshop shop;
    const auto script = shop.attach("dmm-scpi", "dmm");
    Pole pole{-0.02};
    pole.attach(*script, shop.person);
    shop.person.places.erase("polarity");
    shop.person.tells["polarity"] = {.quantity = Quantity::polarity, .polarity = Polarity::reversed};
    shop.examine({{.quantity = Quantity::temperature, .value = 20.0}});
    EXPECT_THAT(shop.person.hows, Contains(HasSubstr("By dmm-scpi, the kick was negative in three touches")));
    const auto kept = shop.kept();
    const auto found = std::ranges::find_if(
        kept, [](const StoredReading& each) { return each.reading.quantity == Quantity::polarity; });
    ASSERT_NE(found, kept.end());
    EXPECT_EQ(found->reading.polarity, Polarity::reversed);
}

TEST(Touches, SayWhyTheyGaveNothing) {
    ScriptedPerson person;
    auto script = std::make_shared<Script>();
    MeterSession session(shipped_driver("dmm-scpi"), scripted_link(script));
    const KickTest silent = watch_touches(session, person, std::chrono::seconds(1));
    EXPECT_EQ(silent.trouble, "the meter shows no DC voltage; set it to its lowest range of DC volts");
    script->pulled = true;
    const KickTest gone = watch_touches(session, person, std::chrono::seconds(1));
    EXPECT_TRUE(gone.link_over);
    EXPECT_EQ(gone.trouble, "the meter is gone; check its plug");
}

} // namespace
} // namespace coilward
