#include "reading/reading.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

Reading reading_of(Quantity quantity, Between between = Between::leads,
                   std::optional<double> frequency_hz = {}, std::optional<Circuit> circuit = {},
                   std::string coil = {}) {
    Reading reading{.quantity = quantity};
    reading.between = between;
    reading.frequency_hz = frequency_hz;
    reading.circuit = circuit;
    reading.coil = std::move(coil);
    return reading;
}

const struct {
    Reading reading;
    const char* text;
} described[] = {
    {reading_of(Quantity::temperature), "temperature"},
    {reading_of(Quantity::dc_resistance), "DC resistance"},
    {reading_of(Quantity::inductance, Between::leads, 1000.0), "inductance at 1 kHz"},
    {reading_of(Quantity::inductance, Between::leads, 120.0, Circuit::series), "series inductance at 120 Hz"},
    {reading_of(Quantity::ac_resistance, Between::leads, 1000.0, Circuit::parallel),
     "parallel AC resistance at 1 kHz"},
    {reading_of(Quantity::quality_factor, Between::leads, 1e5, Circuit::series), "quality factor at 100 kHz"},
    {reading_of(Quantity::dissipation_factor, Between::leads, 1000.0), "dissipation factor at 1 kHz"},
    {reading_of(Quantity::impedance_magnitude, Between::leads, 2500.0), "impedance magnitude at 2.5 kHz"},
    {reading_of(Quantity::phase_angle, Between::leads, 1000.0), "phase angle at 1 kHz"},
    {reading_of(Quantity::capacitance, Between::start_frame, 1000.0),
     "capacitance from start to frame at 1 kHz"},
    {reading_of(Quantity::insulation_resistance, Between::finish_frame),
     "insulation resistance from finish to frame"},
    {reading_of(Quantity::insulation_resistance, Between::start_shield),
     "insulation resistance from start to shield"},
    {reading_of(Quantity::insulation_resistance, Between::finish_shield),
     "insulation resistance from finish to shield"},
    {reading_of(Quantity::insulation_resistance, Between::leads_frame),
     "insulation resistance from both leads to frame"},
    {reading_of(Quantity::dc_voltage), "DC voltage"},
    {reading_of(Quantity::magnet_pole, Between::leads, {}, {}, "slug"), "magnet pole of the slug coil"},
    {{.quantity = Quantity::dc_resistance, .coil = "slug", .handling = Handling::pressed},
     "DC resistance of the slug coil with the joints pressed"},
    {{.quantity = Quantity::dc_resistance, .handling = Handling::warmed},
     "DC resistance with the coil warmed"},
    {{.quantity = Quantity::quality_factor, .frequency_hz = 1000.0, .handling = Handling::lifted},
     "quality factor at 1 kHz with the controls lifted off"},
    {reading_of(Quantity::polarity, Between::leads, {}, {}, "slug"), "polarity of the slug coil"},
    {reading_of(Quantity::resonance_frequency, Between::leads, {}, {}, "whole"),
     "resonance frequency of the whole pickup"},
    {reading_of(Quantity::inductance, Between::leads, 1000.0, Circuit::series, "screw"),
     "series inductance of the screw coil at 1 kHz"},
};

TEST(Describe, NamesAReadingAsAPersonDoes) {
    for (const auto& row : described)
        EXPECT_EQ(describe(row.reading), row.text);
}

TEST(SameQuestion, DependsOnWhatWasAskedAndNotOnTheAnswer) {
    const auto asked = reading_of(Quantity::inductance, Between::leads, 1000.0, Circuit::series, "slug");
    auto answered = asked;
    answered.value = 2.3;
    answered.standard_uncertainty = 0.1;
    answered.state = State::unstable;
    EXPECT_TRUE(same_question(asked, answered));

    auto nearly = asked;
    nearly.frequency_hz = 1000.0 * (1.0 + 1e-9);
    EXPECT_TRUE(same_question(asked, nearly));
}

TEST(SameQuestion, IsAnotherWhereAnyPartDiffers) {
    const auto asked = reading_of(Quantity::inductance, Between::leads, 1000.0, Circuit::series, "slug");
    const Reading others[] = {
        reading_of(Quantity::ac_resistance, Between::leads, 1000.0, Circuit::series, "slug"),
        reading_of(Quantity::inductance, Between::start_frame, 1000.0, Circuit::series, "slug"),
        reading_of(Quantity::inductance, Between::leads, 1001.0, Circuit::series, "slug"),
        reading_of(Quantity::inductance, Between::leads, {}, Circuit::series, "slug"),
        reading_of(Quantity::inductance, Between::leads, 1000.0, Circuit::parallel, "slug"),
        reading_of(Quantity::inductance, Between::leads, 1000.0, {}, "slug"),
        reading_of(Quantity::inductance, Between::leads, 1000.0, Circuit::series, "screw"),
    };
    for (const auto& other : others) {
        EXPECT_FALSE(same_question(asked, other)) << describe(other);
        EXPECT_FALSE(same_question(other, asked)) << describe(other);
    }
}

TEST(SameQuestion, LeavesOutWhatMakesNoDifference) {
    // Q = Xs/Rs = Rp/Xp: one number for both circuits.
    EXPECT_TRUE(
        same_question(reading_of(Quantity::quality_factor, Between::leads, 1000.0, Circuit::series),
                      reading_of(Quantity::quality_factor, Between::leads, 1000.0, Circuit::parallel)));
    EXPECT_TRUE(same_question(reading_of(Quantity::temperature),
                              reading_of(Quantity::temperature, Between::start_frame, 1000.0)));
}

template <typename Kind>
void expect_every_word_names_itself(std::optional<Kind> (*named)(std::string_view),
                                    const std::vector<std::string_view>& words) {
    EXPECT_EQ(all_names<Kind>(), words);
    for (const auto word : words) {
        const auto kind = named(word);
        ASSERT_TRUE(kind.has_value()) << word;
        EXPECT_EQ(name(*kind), word);
    }
    EXPECT_FALSE(named("nonsense").has_value());
    EXPECT_FALSE(named("").has_value());
}

TEST(Vocabulary, IsThatOfTheReadingsDocument) {
    expect_every_word_names_itself<Quantity>(
        quantity_named,
        {"temperature", "dc_resistance", "inductance", "ac_resistance", "quality_factor",
         "dissipation_factor", "impedance_magnitude", "phase_angle", "capacitance", "insulation_resistance",
         "dc_voltage", "polarity", "resonance_frequency", "magnet_pole"});
    expect_every_word_names_itself<Between>(between_named, {"leads", "start-frame", "finish-frame",
                                                            "start-shield", "finish-shield", "leads-frame"});
    expect_every_word_names_itself<Circuit>(circuit_named, {"series", "parallel"});
    expect_every_word_names_itself<State>(state_named, {"ok", "over_range", "under_range", "unstable"});
    expect_every_word_names_itself<Polarity>(polarity_named, {"as_expected", "reversed", "none"});
    expect_every_word_names_itself<Handling>(handling_named, {"warmed", "pressed", "lifted"});
}

} // namespace
} // namespace coilward
