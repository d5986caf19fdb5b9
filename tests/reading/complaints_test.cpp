#include "reading/examination_json.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct Complaint {
    std::string document;
    std::string text;
};

/// A document with one good reading and this one after it.
std::string with_reading(std::string_view reading) {
    return R"({"coil_model": "m", "readings": [{"quantity": "dc_resistance", "value": 6112}, )" +
           std::string(reading) + "]}";
}

std::string two_coils_with(std::string_view reading) {
    return R"({"pickup_type": "p", "coils": {"slug": "a", "screw": "b"}, "readings": [)" +
           std::string(reading) + "]}";
}

std::string with_earlier(std::string_view earlier) {
    return R"({"coil_model": "m", "readings": [], "earlier": )" + std::string(earlier) + "}";
}

std::string message_of(const std::string& document) {
    try {
        examination_from_json(document);
    } catch (const BadDocument& error) {
        return error.what();
    }
    return "accepted";
}

void expect_complaints(const std::vector<Complaint>& table) {
    for (const auto& row : table)
        EXPECT_EQ(message_of(row.document), row.text) << row.document;
}

TEST(Complaints, AboutWhatIsNotJson) {
    const std::string hint =
        " where JSON does not allow it; check quotes, commas and brackets there and just before";
    expect_complaints({
        {"", "line 1, column 1: found the end of the text" + hint},
        {"{\"coil_model\": \"m\",\n \"readings\": [}", "line 2, column 15: found '}'" + hint},
        {"{\"coil_model\": \"m\",\n \"readings\": [", "line 2, column 15: found the end of the text" + hint},
        {"{\"coil_model\": \"m", "line 1, column 18: found the end of the text" + hint},
        {"{\"coil_model\": \"m\n\"}", "line 1, column 18: found the end of the line" + hint},
        {"{\"coil_model\": NaN}", "line 1, column 16: found 'N'" + hint},
        {"{'coil_model': 1}", "line 1, column 2: found '''" + hint},
        {"{\"coil_model\": \"m\xff\"}", "line 1, column 18: found byte 0xFF" + hint},
        {"{} {}", "line 1, column 4: found '{'" + hint},
        {"{\"coil_model\": \"m\",\n\"readings\": [{\"value\": 1e999}]}",
         "line 2, column 24: found 1e999, expected a number below 1.8e308"},
        {R"({"coil_model": "m", "readings": [], "readings": []})",
         "\"readings\": occurs twice in one object; keep one"},
        {with_reading(R"({"quantity": "dc_resistance", "value": 1, "value": 2})"),
         "\"readings[1].value\": occurs twice in one object; keep one"},
    });
}

TEST(Complaints, AboutTheDocument) {
    const std::string which_subject =
        "the id of a coil model, or pickup_type with coils for a pickup of several";
    expect_complaints({
        {"[]", "found an empty array, expected an object with coil_model and readings"},
        {"[{}]", "found an array, expected an object with coil_model and readings"},
        {"null", "found null, expected an object with coil_model and readings"},
        {R"({"readings": []})", "coil_model: missing, expected " + which_subject},
        {R"({"coil_model": null, "readings": []})", "coil_model: missing, expected " + which_subject},
        {R"({"coil_model": 42, "readings": []})", "coil_model: found 42, expected the id of a coil model"},
        {R"({"coil_model": "", "readings": []})", "coil_model: found \"\", expected the id of a coil model"},
        {R"({"id": [], "coil_model": "m", "readings": []})", "id: found an empty array, expected a string"},
        {R"({"coil_model": "m"})", "readings: missing, expected an array of readings"},
        {R"({"coil_model": "m", "readings": {}})",
         "readings: found an empty object, expected an array of readings"},
        {R"({"coil_model": "m", "pickup_type": "p", "coils": {"slug": "a"}, "readings": []})",
         "pickup_type: given together with coil_model, expected one of the two; remove coil_model for a "
         "pickup of "
         "several coils"},
        {R"({"coil_model": "m", "coils": {"slug": "a"}, "readings": []})",
         "coils: given together with coil_model, expected one of the two; remove coil_model for a pickup of "
         "several "
         "coils"},
        {R"({"pickup_type": "p", "readings": []})",
         "coils: missing, expected an object with the coil model of each coil"},
        {R"({"coils": {"slug": "a"}, "readings": []})",
         "pickup_type: missing, expected the id of a pickup type"},
        {R"({"pickup_type": 1, "coils": {"slug": "a"}, "readings": []})",
         "pickup_type: found 1, expected the id of a pickup type"},
        {R"({"pickup_type": "p", "coils": {}, "readings": []})",
         "coils: found an empty object, expected an object with the coil model of each coil"},
        {R"({"pickup_type": "p", "coils": ["a"], "readings": []})",
         "coils: found an array, expected an object with the coil model of each coil"},
        {R"({"pickup_type": "p", "coils": {"slug": 3}, "readings": []})",
         "coils.slug: found 3, expected the id of a coil model"},
        {R"({"pickup_type": "p", "coils": {"a\nb": 3}, "readings": []})",
         R"(coils."a\nb": found 3, expected the id of a coil model)"},
        {R"({"pickup_type": "p", "coils": {"whole": "a"}, "readings": []})",
         "coils: a coil is named \"whole\", which is no name for one coil; rename it"},
    });
}

const std::string quantities =
    "one of temperature, dc_resistance, inductance, ac_resistance, quality_factor, "
    "dissipation_factor, impedance_magnitude, phase_angle, capacitance, "
    "insulation_resistance, dc_voltage, polarity, resonance_frequency, magnet_pole";

TEST(Complaints, AboutTheWordsOfAReading) {
    expect_complaints({
        {with_reading("5"), "readings[1]: found 5, expected an object with a quantity and a value"},
        {with_reading("{}"), "readings[1].quantity: missing, expected " + quantities},
        {with_reading(R"({"quantity": "resistance", "value": 1})"),
         "readings[1].quantity: found \"resistance\", expected " + quantities},
        {with_reading(R"({"quantity": 5})"), "readings[1].quantity: found 5, expected " + quantities},
        {with_reading(R"({"quantity": "dc_resistance", "between": "ends", "value": 1})"),
         "readings[1].between: found \"ends\", expected one of leads, start-frame, finish-frame, "
         "start-shield, "
         "finish-shield, leads-frame"},
        {with_reading(R"({"quantity": "dc_resistance", "value": 1, "handling": "heated"})"),
         "readings[1].handling: found \"heated\", expected one of warmed, pressed, lifted"},
        {with_reading(R"({"quantity": "inductance", "circuit": "Ls", "frequency": 1000, "value": 1})"),
         "readings[1].circuit: found \"Ls\", expected one of series, parallel"},
        {with_reading(R"({"quantity": "dc_resistance", "state": "OL"})"),
         "readings[1].state: found \"OL\", expected one of ok, over_range, under_range, unstable"},
        {with_reading(R"({"quantity": "polarity", "value": "north"})"),
         "readings[1].value: found \"north\", expected one of as_expected, reversed, none"},
        {with_reading(R"({"quantity": "polarity", "value": 1})"),
         "readings[1].value: found 1, expected one of as_expected, reversed, none"},
        {with_reading(R"({"quantity": "polarity"})"),
         "readings[1].value: missing, expected one of as_expected, reversed, none"},
        {with_reading(R"({"quantity": "dc_resistance", "value": 6.1, "unit": "kohm"})"),
         "readings[1].unit: found \"kohm\", expected \"ohm\"; convert the value"},
        {with_reading(R"({"quantity": "inductance", "frequency": 1000, "value": 1, "unit": "ohm"})"),
         "readings[1].unit: found \"ohm\", expected \"H\"; convert the value"},
        {with_reading(R"({"quantity": "temperature", "value": 1, "unit": 3})"),
         "readings[1].unit: found 3, expected \"degC\"; convert the value"},
        {with_reading(R"({"quantity": "phase_angle", "frequency": 1000, "value": 1, "unit": "°"})"),
         "readings[1].unit: found \"°\", expected \"rad\" or \"deg\"; convert the value"},
        {with_reading(R"({"quantity": "phase_angle", "frequency": 1000, "value": 1, "unit": "deg",
                         "standard_uncertainty": 1e-323})"),
         "readings[1].standard_uncertainty: found 1e-323, expected a number above 0; leave it "
         "out where it is not known"},
        {with_reading(R"({"quantity": "polarity", "value": "none", "unit": "V"})"),
         "readings[1].unit: found \"V\", expected no unit; leave the unit of a polarity out"},
        {with_reading(R"({"quantity": "dc_resistance", "coil": 1, "value": 1})"),
         "readings[1].coil: found 1, expected the name of a coil"},
        {two_coils_with(R"({"quantity": "dc_resistance", "value": 1})"),
         R"(readings[0].coil: missing, expected one of "screw", "slug", "whole")"},
        {two_coils_with(R"({"quantity": "dc_resistance", "coil": "neck", "value": 1})"),
         R"(readings[0].coil: found "neck", expected one of "screw", "slug", "whole")"},
        {two_coils_with(R"({"quantity": "temperature", "coil": "neck", "value": 20})"),
         R"(readings[0].coil: found "neck", expected one of "screw", "slug", "whole")"},
    });
}

TEST(Complaints, AboutTheNumbersOfAReading) {
    expect_complaints({
        {with_reading(R"({"quantity": "dc_resistance"})"),
         "readings[1].value: missing, expected a number in ohm, or a state other than ok"},
        {with_reading(R"({"quantity": "dc_resistance", "state": "ok", "limit": 2e7})"),
         "readings[1].value: missing, expected a number in ohm, or a state other than ok"},
        {with_reading(R"({"quantity": "dc_resistance", "value": "6112"})"),
         "readings[1].value: found \"6112\", expected a number in ohm"},
        {with_reading(R"({"quantity": "quality_factor", "frequency": 1000, "value": true})"),
         "readings[1].value: found true, expected a number"},
        {with_reading(R"({"quantity": "dc_resistance", "value": -6112.0})"),
         "readings[1].value: found -6112.0, expected a number in ohm not below -10"},
        {with_reading(R"({"quantity": "temperature", "value": -300})"),
         "readings[1].value: found -300, expected a number in degC not below -273.15"},
        {with_reading(R"({"quantity": "impedance_magnitude", "frequency": 1000, "value": -1})"),
         "readings[1].value: found -1, expected a number in ohm not below 0"},
        {with_reading(R"({"quantity": "resonance_frequency", "value": 0})"),
         "readings[1].value: found 0, expected a number in Hz above 0"},
        {with_reading(R"({"quantity": "dc_resistance", "value": 1, "standard_uncertainty": 0})"),
         "readings[1].standard_uncertainty: found 0, expected a number above 0; leave it out where it is not "
         "known"},
        {with_reading(R"({"quantity": "dc_resistance", "value": 1, "standard_uncertainty": -0.5})"),
         "readings[1].standard_uncertainty: found -0.5, expected a number above 0; leave it out where it is "
         "not "
         "known"},
        {with_reading(R"({"quantity": "dc_resistance", "value": 1, "standard_uncertainty": "9"})"),
         "readings[1].standard_uncertainty: found \"9\", expected a number above 0; leave it out where it is "
         "not "
         "known"},
        {with_reading(R"({"quantity": "inductance", "value": 1})"),
         "readings[1].frequency: missing, expected the frequency in Hz at which the inductance was measured"},
        {with_reading(R"({"quantity": "capacitance", "state": "over_range"})"),
         "readings[1].frequency: missing, expected the frequency in Hz at which the capacitance was "
         "measured"},
        {with_reading(R"({"quantity": "inductance", "frequency": 0, "value": 1})"),
         "readings[1].frequency: found 0, expected a number above 0, in Hz"},
        {with_reading(R"({"quantity": "inductance", "frequency": "1 kHz", "value": 1})"),
         "readings[1].frequency: found \"1 kHz\", expected a number above 0, in Hz"},
        {with_reading(R"({"quantity": "dc_resistance", "frequency": -1, "value": 1})"),
         "readings[1].frequency: found -1, expected a number above 0, in Hz"},
        {with_reading(R"({"quantity": "dc_resistance", "state": "over_range", "limit": "20M"})"),
         "readings[1].limit: found \"20M\", expected a number in ohm"},
        {with_reading(R"({"quantity": "dc_resistance", "state": "unstable", "spread": -2})"),
         "readings[1].spread: found -2, expected a number in ohm not below 0"},
    });
}

TEST(Complaints, AboutEarlierExaminations) {
    const std::string time = "a time such as \"2024-03-02T10:00:00Z\"";
    expect_complaints({
        {with_earlier("{}"), "earlier: found an empty object, expected an array of examinations"},
        {with_earlier("[3]"), "earlier[0]: found 3, expected an object with at, healthy and readings"},
        {with_earlier(R"([{"healthy": true, "readings": []}])"), "earlier[0].at: missing, expected " + time},
        {with_earlier(R"([{"at": "2 March", "healthy": true, "readings": []}])"),
         "earlier[0].at: found \"2 March\", expected " + time},
        {with_earlier(R"([{"at": "2024-3-02T10:00:00Z", "healthy": true, "readings": []}])"),
         "earlier[0].at: found \"2024-3-02T10:00:00Z\", expected " + time},
        {with_earlier(R"([{"at": "2024-03-02T10:00:00Z", "readings": []}])"),
         "earlier[0].healthy: missing, expected true or false"},
        {with_earlier(R"([{"at": "2024-03-02T10:00:00Z", "healthy": "yes", "readings": []}])"),
         "earlier[0].healthy: found \"yes\", expected true or false"},
        {with_earlier(R"([{"at": "2024-03-02T10:00:00Z", "healthy": true}])"),
         "earlier[0].readings: missing, expected an array of readings"},
        {with_earlier(
             R"([{"at": "2024-03-02T10:00:00Z", "healthy": true, "readings": [{"quantity": "dc_resistance"}]}])"),
         "earlier[0].readings[0].value: missing, expected a number in ohm, or a state other than ok"},
    });
}

TEST(Complaints, AboutCoilsMadeAlike) {
    const auto alike = [](std::string_view coils) {
        return R"({"coil_model": "m", "readings": [], "alike": )" + std::string(coils) + "}";
    };
    expect_complaints({
        {alike("{}"), "alike: found an empty object, expected an array of coils made alike"},
        {alike("[3]"), "alike[0]: found 3, expected an object with as, healthy and readings"},
        {alike(R"([{"healthy": true, "readings": []}])"),
         "alike[0].as: missing, expected \"twin\" or \"set\""},
        {alike(R"([{"as": "brother", "healthy": true, "readings": []}])"),
         "alike[0].as: found \"brother\", expected \"twin\" or \"set\""},
        {alike(R"([{"as": "twin", "readings": []}])"), "alike[0].healthy: missing, expected true or false"},
        {alike(R"([{"as": "twin", "coil": "slug", "healthy": true, "readings": []}])"),
         "alike[0].coil: found \"slug\", expected nothing, since a single coil has no name"},
        {R"({"pickup_type": "p", "coils": {"slug": "m"}, "readings": [], "alike": [{"as": "set", "healthy": true,
            "readings": []}]})",
         "alike[0].coil: missing, expected the name of the coil that it was made like"},
    });
}

TEST(Complaints, ShowAtMostSixtyBytesOfWhatWasFound) {
    const std::string sixty(60, 'x');
    EXPECT_EQ(message_of(R"({"coil_model": "m", "readings": ")" + sixty + R"(y"})"),
              "readings: found \"" + sixty + "…\", expected an array of readings");
    EXPECT_EQ(message_of(R"({"coil_model": "m", "readings": ")" + sixty.substr(1) + R"(éé"})"),
              "readings: found \"" + sixty.substr(1) + "…\", expected an array of readings");
}

TEST(Complaints, AboutASingleReadingNameTheMemberAlone) {
    try {
        reading_from_json(R"({"quantity": "dc_resistance", "value": "x"})");
        FAIL() << "accepted";
    } catch (const BadDocument& error) {
        EXPECT_STREQ(error.what(), "value: found \"x\", expected a number in ohm");
    }
}

} // namespace
} // namespace coilward
