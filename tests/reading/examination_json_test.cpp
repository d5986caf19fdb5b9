#include "reading/examination_json.h"
#include "sample_documents.h"

#include <cmath>
#include <limits>
#include <random>

#include <gtest/gtest.h>

namespace coilward {
namespace {

TEST(ExaminationFromJson, ReadsTheExampleOfOneCoil) {
    const auto examination = examination_from_json(one_coil);
    EXPECT_EQ(examination.id, "");
    EXPECT_EQ(examination.coil_model, "six-rod-42");
    EXPECT_EQ(examination.pickup_type, "");
    EXPECT_TRUE(examination.coils.empty());
    EXPECT_TRUE(examination.earlier.empty());

    Reading temperature{.quantity = Quantity::temperature};
    temperature.value = 21.4;
    temperature.standard_uncertainty = 0.5;
    Reading dc_resistance{.quantity = Quantity::dc_resistance};
    dc_resistance.value = 6112.0;
    dc_resistance.standard_uncertainty = 9.0;
    Reading inductance{.quantity = Quantity::inductance};
    inductance.circuit = Circuit::series;
    inductance.frequency_hz = 1000.0;
    inductance.value = 2.331;
    inductance.standard_uncertainty = 0.008;
    Reading ac_resistance = inductance;
    ac_resistance.quantity = Quantity::ac_resistance;
    ac_resistance.value = 6580.0;
    ac_resistance.standard_uncertainty = 30.0;
    Reading quality_factor{.quantity = Quantity::quality_factor};
    quality_factor.frequency_hz = 1000.0;
    quality_factor.value = 2.22;
    quality_factor.standard_uncertainty = 0.02;
    Reading insulation{.quantity = Quantity::insulation_resistance};
    insulation.between = Between::start_frame;
    insulation.state = State::over_range;
    insulation.limit = 2.0e7;
    Reading capacitance{.quantity = Quantity::capacitance};
    capacitance.between = Between::start_frame;
    capacitance.frequency_hz = 1000.0;
    capacitance.value = 4.6e-11;
    capacitance.standard_uncertainty = 5e-13;
    Reading polarity{.quantity = Quantity::polarity};
    polarity.polarity = Polarity::as_expected;

    const std::vector<Reading> expected = {temperature,    dc_resistance, inductance,  ac_resistance,
                                           quality_factor, insulation,    capacitance, polarity};
    EXPECT_EQ(examination.readings, expected);
}

TEST(ExaminationFromJson, ReadsAPickupOfTwoCoilsWithItsPast) {
    const auto examination = examination_from_json(two_coils);
    EXPECT_EQ(examination.id, "bench 7");
    EXPECT_EQ(examination.coil_model, "");
    EXPECT_EQ(examination.pickup_type, "dual-coil-series");
    EXPECT_EQ(examination.coils.at("slug"), "six-slug-42");
    EXPECT_EQ(examination.coils.at("screw"), "six-screw-42");

    ASSERT_EQ(examination.readings.size(), 6u);
    EXPECT_EQ(examination.readings[0].coil, "");
    EXPECT_EQ(examination.readings[1].coil, "slug");
    EXPECT_EQ(examination.readings[1].state, State::unstable);
    EXPECT_EQ(examination.readings[1].value, 4100.0);
    EXPECT_EQ(examination.readings[1].spread, 35.0);
    EXPECT_FALSE(examination.readings[1].standard_uncertainty.has_value());
    EXPECT_EQ(examination.readings[4].between, Between::finish_shield);
    EXPECT_EQ(examination.readings[5].polarity, Polarity::none);

    ASSERT_EQ(examination.earlier.size(), 2u);
    EXPECT_EQ(examination.earlier[0].at, "2024-03-02T10:00:00Z");
    EXPECT_TRUE(examination.earlier[0].healthy);
    ASSERT_EQ(examination.earlier[0].readings.size(), 1u);
    EXPECT_EQ(examination.earlier[0].readings[0].value, 4060.0);
    EXPECT_FALSE(examination.earlier[1].healthy);
    EXPECT_TRUE(examination.earlier[1].readings.empty());

    ASSERT_EQ(examination.alike.size(), 2u);
    EXPECT_EQ(examination.alike[0].as, Kinship::twin);
    EXPECT_EQ(examination.alike[0].coil, "slug");
    EXPECT_EQ(examination.alike[0].coil_model, "six-screw-42");
    EXPECT_TRUE(examination.alike[0].healthy);
    EXPECT_EQ(examination.alike[0].readings.at(0).value, 4010.0);
    EXPECT_EQ(examination.alike[1].as, Kinship::set);
    EXPECT_EQ(examination.alike[1].coil_model, "");
    EXPECT_FALSE(examination.alike[1].healthy);
}

TEST(ExaminationFromJson, ConvertsAnAngleInDegreesWithAllThatBelongsToIt) {
    const auto reading = reading_from_json(R"({"quantity": "phase_angle", "frequency": 1000, "value": 180,
        "unit": "deg", "standard_uncertainty": 90, "spread": 60, "limit": -180})");
    constexpr double pi = 3.14159265358979323846;
    EXPECT_DOUBLE_EQ(*reading.value, pi);
    EXPECT_DOUBLE_EQ(*reading.standard_uncertainty, pi / 2);
    EXPECT_DOUBLE_EQ(*reading.spread, pi / 3);
    EXPECT_DOUBLE_EQ(*reading.limit, -pi);
    EXPECT_EQ(reading_from_json(R"({"quantity": "phase_angle", "frequency": 1, "value": 1.5, "unit": "rad"})")
                  .value,
              1.5);
}

/// Each is a legal reading, with the value that it must give.
const struct {
    const char* text;
    double value;
} legal_readings[] = {
    {R"({"quantity": "dc_resistance", "value": 6112})", 6112.0},
    {R"({"quantity": "dc_resistance", "value": -0.02, "unit": "ohm"})", -0.02},
    {R"({"quantity": "dc_resistance", "value": 6112, "unit": null, "standard_uncertainty": null})", 6112.0},
    {R"({"quantity": "dc_resistance", "value": 6112, "frequency": 0})", 6112.0},
    {R"({"quantity": "dc_resistance", "value": 6112, "at": "2025-01-01T00:00:00.000Z", "meter": "m", "x": {}})",
     6112.0},
    {R"({"quantity": "inductance", "frequency": 1000, "value": -0.7})", -0.7},
    {R"({"quantity": "capacitance", "frequency": 1000, "value": -1e-12})", -1e-12},
    {R"({"quantity": "ac_resistance", "circuit": "parallel", "frequency": 1000, "value": -40})", -40.0},
    {R"({"quantity": "quality_factor", "frequency": 1000, "value": -0.1, "unit": "1"})", -0.1},
    {R"({"quantity": "dc_voltage", "value": -0.003, "unit": "V"})", -0.003},
    {R"({"quantity": "temperature", "value": -12.5, "unit": "degC"})", -12.5},
    {R"({"quantity": "temperature", "value": -273.15})", -273.15},
    {R"({"quantity": "impedance_magnitude", "frequency": 120, "value": 0})", 0.0},
    {R"({"quantity": "resonance_frequency", "value": 6400.5, "unit": "Hz"})", 6400.5},
    {R"({"quantity": "insulation_resistance", "between": "finish-frame", "value": 1.9e6})", 1.9e6},
};

TEST(ReadingFromJson, AcceptsWhatIsLegal) {
    for (const auto& row : legal_readings)
        EXPECT_EQ(reading_from_json(row.text).value, row.value) << row.text;
}

TEST(ExaminationFromJson, ToleratesMembersOfOtherPrograms) {
    const auto examination = examination_from_json(
        R"({"coil_model": "m", "readings": [], "label": {"fault": "open"}, "earlier": null, "pickup_type": null})");
    EXPECT_EQ(examination.coil_model, "m");
}

TEST(ExaminationFromJson, KeepsAWholeNumberAsId) {
    EXPECT_EQ(examination_from_json(R"({"id": 7, "coil_model": "m", "readings": []})").id, "7");
}

void expect_same(const Examination& a, const Examination& b) {
    EXPECT_EQ(a.id, b.id);
    EXPECT_EQ(a.coil_model, b.coil_model);
    EXPECT_EQ(a.pickup_type, b.pickup_type);
    EXPECT_EQ(a.coils, b.coils);
    EXPECT_EQ(a.readings, b.readings);
    ASSERT_EQ(a.earlier.size(), b.earlier.size());
    for (std::size_t i = 0; i < a.earlier.size(); ++i) {
        EXPECT_EQ(a.earlier[i].at, b.earlier[i].at);
        EXPECT_EQ(a.earlier[i].healthy, b.earlier[i].healthy);
        EXPECT_EQ(a.earlier[i].readings, b.earlier[i].readings);
    }
}

TEST(ExaminationToJson, ReadsBackTheSame) {
    for (const auto document : {one_coil, two_coils}) {
        const auto examination = examination_from_json(document);
        const auto text = examination_to_json(examination);
        EXPECT_EQ(text.find('\n'), std::string::npos);
        expect_same(examination_from_json(text), examination);
    }
}

TEST(ReadingToJson, KeepsThePointsOfAPolarity) {
    const auto text = R"({"quantity":"polarity","value":"reversed","between":"start-frame"})";
    EXPECT_EQ(reading_to_json(reading_from_json(text)), text);
}

TEST(ExaminationToJson, KeepsNamesInAnyScript) {
    auto examination = examination_from_json(two_coils);
    examination.id = "Größe \"7\"\n線圈";
    expect_same(examination_from_json(examination_to_json(examination)), examination);
}

TEST(ReadingToJson, WritesTheReadingsForm) {
    Reading reading{.quantity = Quantity::inductance};
    reading.circuit = Circuit::series;
    reading.frequency_hz = 1000.0;
    reading.value = 2.331;
    reading.standard_uncertainty = 0.008;
    EXPECT_EQ(
        reading_to_json(reading),
        R"({"quantity":"inductance","between":"leads","circuit":"series","frequency":1000.0,"value":2.331,)"
        R"("unit":"H","standard_uncertainty":0.008})");

    Reading polarity{.quantity = Quantity::polarity};
    polarity.polarity = Polarity::reversed;
    polarity.coil = "slug";
    EXPECT_EQ(reading_to_json(polarity), R"({"quantity":"polarity","coil":"slug","value":"reversed"})");

    Reading pressed{.quantity = Quantity::dc_resistance, .value = 6900.0, .handling = Handling::pressed};
    EXPECT_EQ(
        reading_to_json(pressed),
        R"({"quantity":"dc_resistance","between":"leads","handling":"pressed","value":6900.0,"unit":"ohm"})");
    EXPECT_EQ(reading_from_json(reading_to_json(pressed)), pressed);
    const Reading pole{.quantity = Quantity::magnet_pole, .polarity = Polarity::reversed};
    EXPECT_EQ(reading_to_json(pole), R"({"quantity":"magnet_pole","value":"reversed"})");
    EXPECT_EQ(reading_from_json(reading_to_json(pole)), pole);

    Reading over{.quantity = Quantity::dc_resistance};
    over.state = State::over_range;
    over.limit = 2e7;
    EXPECT_EQ(
        reading_to_json(over),
        R"({"quantity":"dc_resistance","between":"leads","state":"over_range","limit":20000000.0,"unit":"ohm"})");
}

TEST(ReadingToJson, KeepsEveryBitOfANumber) {
    std::mt19937_64 random(20240302);
    std::uniform_real_distribution<double> mantissa(-1.0, 1.0);
    std::uniform_int_distribution<int> exponent(-1000, 1000);
    for (int i = 0; i < 2000; ++i) {
        Reading reading{.quantity = Quantity::dc_voltage};
        reading.value = std::ldexp(mantissa(random), exponent(random));
        reading.standard_uncertainty = std::ldexp(1.0 + std::abs(mantissa(random)), exponent(random));
        EXPECT_EQ(reading_from_json(reading_to_json(reading)), reading);
    }
}

TEST(ReadingToJson, RefusesANumberThatJsonCannotHold) {
    Reading reading{.quantity = Quantity::dc_resistance};
    reading.value = std::numeric_limits<double>::infinity();
    try {
        reading_to_json(reading);
        FAIL() << "an infinite value was written";
    } catch (const std::invalid_argument& error) {
        EXPECT_STREQ(error.what(),
                     "DC resistance: inf cannot be written as JSON; write a state instead of it");
    }
}

} // namespace
} // namespace coilward
