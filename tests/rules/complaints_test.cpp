#include "rules/rules.h"
#include "sample_rules.h"

#include <set>

#include <gtest/gtest.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;

using Kind = ComplaintKind;
using Sample = SampleRules;

constexpr std::string_view coil = "coils/a.toml";
constexpr std::string_view pickup = "pickups/pair.toml";
constexpr std::string_view sound = "faults/sound.toml";
constexpr std::string_view leaky = "faults/leaky.toml";
constexpr std::string_view other = "faults/other.toml";
constexpr std::string_view bench = "bench.toml";

/// One way to spoil the sample rules and everything that is then said.
struct Row {
    Kind kind;
    void (*spoil)(const Sample&);
    std::string text;
};

void put_second_coil(const Sample& rules, std::string_view file) {
    rules.write(file, rules.text_of(coil));
}

const Row rows[] = {
    // The folder and its files.
    {Kind::missing_folder, [](const Sample& rules) { fs::remove_all(rules.folder()); },
     "rules: there is no such folder, expected one that holds coils/, pickups/, faults/ and bench.toml"},
    {Kind::missing_folder, [](const Sample& rules) { fs::remove_all(rules.folder() / "faults"); },
     "rules/faults: there is no such folder, expected one that holds a fault in each file"},
    {Kind::missing_folder,
     [](const Sample& rules) {
         fs::remove_all(rules.folder() / "pickups");
         rules.replace("bench.toml", "seconds = 10", "seconds = 0");
     },
     "rules/bench.toml:3: reading[0].seconds: found 0, expected seconds, more than 0 and at most 3600\n"
     "  seconds = 0\n"
     "            ^\n"
     "rules/pickups: there is no such folder, expected one that holds a pickup type in each file"},
    {Kind::not_a_folder,
     [](const Sample& rules) {
         fs::remove_all(rules.folder() / "pickups");
         rules.write("pickups", "");
     },
     "rules/pickups: found a file, expected a folder that holds a pickup type in each file"},
    {Kind::empty_folder,
     [](const Sample& rules) {
         fs::remove(rules.folder() / pickup);
         rules.write("pickups/notes.txt", "not rules");
     },
     "rules/pickups: found no .toml file, expected a pickup type in each file"},
    {Kind::missing_file, [](const Sample& rules) { fs::remove(rules.folder() / bench); },
     "rules/bench.toml: there is no such file, expected one that says what each reading costs and how it is "
     "taken"},
    {Kind::unreadable,
     [](const Sample& rules) { fs::create_symlink("nowhere", rules.folder() / "coils/b.toml"); },
     "rules/coils/b.toml: cannot be read: No such file or directory"},
    {Kind::unreadable,
     [](const Sample& rules) {
         fs::remove_all(rules.folder() / "pickups");
         fs::create_symlink("pickups", rules.folder() / "pickups");
     },
     "rules/pickups: cannot be read: Too many levels of symbolic links"},
    {Kind::not_a_file, [](const Sample& rules) { fs::create_directory(rules.folder() / "coils/b.toml"); },
     "rules/coils/b.toml: found a folder, expected a file of text"},
    {Kind::too_large, [](const Sample& rules) { rules.write("coils/b.toml", std::string(1048577, '\n')); },
     "rules/coils/b.toml: found 1048577 bytes, expected at most 1048576 in a file of rules"},
    {Kind::empty_file, [](const Sample& rules) { rules.write("coils/b.toml", ""); },
     "rules/coils/b.toml: the file is empty; fill it in or remove it"},
    {Kind::empty_file, [](const Sample& rules) { rules.write("coils/b.toml", "\xEF\xBB\xBF \r\n\t\n"); },
     "rules/coils/b.toml: the file is empty; fill it in or remove it"},
    {Kind::not_utf8,
     [](const Sample& rules) { rules.write("coils/b.toml", "id = \"b\"\ntitle = \"\xC3\xA9t\xE9\"\n"); },
     "rules/coils/b.toml:2: found byte E9 (hexadecimal), expected text in UTF-8\n"
     "  title = \"ét\xEF\xBF\xBD\"\n"
     "             ^"},
    {Kind::line_too_long,
     [](const Sample& rules) { rules.write("coils/b.toml", "id = \"b\"\n" + std::string(4001, 'a') + "\n"); },
     "rules/coils/b.toml:2: found a line of more than 4000 bytes, expected shorter lines\n"
     "  " +
         std::string(200, 'a') +
         "\n"
         "  ^"},
    {Kind::syntax,
     [](const Sample& rules) { rules.write("coils/b.toml", "id = \"b\"\r\n[wire\r\nawg = 42\r\n"); },
     "rules/coils/b.toml:2: this is not TOML: Error while parsing table header: expected ']', saw '\\r'\n"
     "  [wire\n"
     "       ^"},
    {Kind::syntax,
     [](const Sample& rules) { rules.replace(coil, "insulation = ", "awg = 43\ninsulation = "); },
     "rules/coils/a.toml:7: this is not TOML: Error while parsing key-value pair: cannot redefine existing "
     "integer "
     "'awg'\n"
     "  awg = 43\n"
     "        ^"},
    {Kind::syntax, [](const Sample& rules) { rules.write("coils/b.toml", "id = \"b\"\nh\xC3\xB6he = 1\n"); },
     "rules/coils/b.toml:2: this is not TOML: Error while parsing key-value pair: expected '=', saw "
     "'\xC3\xB6'\n"
     "  h\xC3\xB6he = 1\n"
     "   ^"},

    // Keys that are there or not.
    {Kind::missing_key, [](const Sample& rules) { rules.replace(coil, "title = \"A coil\"\n", ""); },
     "rules/coils/a.toml:1: title: missing, expected text\n"
     "  id = \"a\"\n"
     "  ^"},
    {Kind::missing_key,
     [](const Sample& rules) { rules.replace(coil, "dc_resistance = [5700, 6600]\n", ""); },
     "rules/coils/a.toml:20: expect.dc_resistance: missing, expected [low, high], in ohm from 50 to 200000\n"
     "  [expect]\n"
     "  ^"},
    {Kind::missing_key,
     [](const Sample& rules) {
         rules.replace(coil, "[wire]\nawg = 42\ninsulation = \"plain enamel\"\n", "");
     },
     "rules/coils/a.toml:1: wire: missing, expected a table, [wire]\n"
     "  id = \"a\"\n"
     "  ^"},
    {Kind::missing_key, [](const Sample& rules) { rules.replace(bench, "frequency = 1000\n", ""); },
     "rules/bench.toml:9: reading[1].frequency: missing, expected hertz, more than 0 and at most 20000\n"
     "  [[reading]]\n"
     "  ^"},
    {Kind::unknown_key, [](const Sample& rules) { rules.replace(coil, "inductance =", "inductence ="); },
     "rules/coils/a.toml:24: expect.inductence: unknown key, expected one of circuit, dc_resistance, "
     "frame_capacitance, inductance, quality_factor, self_capacitance, test_frequency; did you mean "
     "\"inductance\"?\n"
     "  inductence = [2.10, 2.62]\n"
     "  ^"},
    {Kind::unknown_key, [](const Sample& rules) { rules.replace(coil, "[bobbin]", "[spool]"); },
     "rules/coils/a.toml:13: spool: unknown key, expected one of bobbin, expect, id, source, title, winding, "
     "wire\n"
     "  [spool]\n"
     "   ^"},
    {Kind::unknown_key, [](const Sample& rules) { rules.replace(leaky, "at_ends = 0.1", "median = 0.1"); },
     "rules/faults/leaky.toml:28: severity[1].median: unknown key, expected one of at_ends, bands, "
     "distribution, "
     "estimated, name, points, weights\n"
     "  median = 0.1\n"
     "  ^"},
    {Kind::unknown_key,
     [](const Sample& rules) { rules.replace(sound, "value = 6000.0", "value = 6000.0, frequncy = 0"); },
     "rules/faults/sound.toml:26: case[0].readings[0].frequncy: unknown key, expected one of between, "
     "circuit, "
     "coil, frequency, limit, quantity, spread, standard_uncertainty, state, unit, value; did you mean "
     "\"frequency\"?\n"
     "    { quantity = \"dc_resistance\", value = 6000.0, frequncy = 0, unit = \"ohm\", standard_uncertainty "
     "= 9.0 },\n"
     "                                                  ^"},
    {Kind::unknown_key,
     [](const Sample& rules) { rules.replace(bench, "seconds = 30", "seconds = 30\nfrequency = 1"); },
     "rules/bench.toml:21: reading[2].frequency: unknown key, expected one of how, quantity, seconds\n"
     "  frequency = 1\n"
     "  ^"},

    // Values of the wrong type.
    {Kind::wrong_type, [](const Sample& rules) { rules.replace(coil, "title = \"A coil\"", "title = 7"); },
     "rules/coils/a.toml:2: title: found a whole number, expected text\n"
     "  title = 7\n"
     "          ^"},
    {Kind::wrong_type, [](const Sample& rules) { rules.replace(coil, "awg = 42", "awg = 42.5"); },
     "rules/coils/a.toml:6: wire.awg: found a number, expected a whole number from 24 to 56\n"
     "  awg = 42.5\n"
     "        ^"},
    {Kind::wrong_type, [](const Sample& rules) { rules.replace(coil, "0.0048", "\"4.8 mm\""); },
     "rules/coils/a.toml:15: bobbin.core_width: found text, expected metre from 0.0005 to 0.06\n"
     "  core_width = \"4.8 mm\"\n"
     "               ^"},
    {Kind::wrong_type, [](const Sample& rules) { rules.replace(coil, "[5700, 6600]", "6100"); },
     "rules/coils/a.toml:23: expect.dc_resistance: found a whole number, expected [low, high], in ohm from "
     "50 to "
     "200000\n"
     "  dc_resistance = 6100\n"
     "                  ^"},
    {Kind::wrong_type, [](const Sample& rules) { rules.replace(coil, "[2.10, 2.62]", "[2.10, \"2.62 H\"]"); },
     "rules/coils/a.toml:24: expect.inductance: found [2.1, \"2.62 H\"], expected [low, high], in henry from "
     "0.01 "
     "to 100\n"
     "  inductance = [2.10, \"2.62 H\"]\n"
     "               ^"},
    {Kind::wrong_type,
     [](const Sample& rules) { rules.replace(coil, "circuit = \"series\"", "circuit = true"); },
     "rules/coils/a.toml:22: expect.circuit: found true or false, expected \"series\" or \"parallel\"\n"
     "  circuit = true\n"
     "            ^"},
    {Kind::wrong_type,
     [](const Sample& rules) {
         rules.replace(coil, "[wire]\nawg = 42\ninsulation = \"plain enamel\"\n", "wire = 2001-02-03\n");
     },
     "rules/coils/a.toml:5: wire: found a date or time, expected a table, [wire]\n"
     "  wire = 2001-02-03\n"
     "         ^"},
    {Kind::wrong_type, [](const Sample& rules) { rules.replace(sound, "fires = true", "fires = \"yes\""); },
     "rules/faults/sound.toml:23: case[0].fires: found text, expected true or false\n"
     "  fires = \"yes\"\n"
     "          ^"},
    {Kind::wrong_type,
     [](const Sample& rules) { rules.replace(sound, "[\"Take care.\"]", "\"Take care.\""); },
     "rules/faults/sound.toml:10: cautions: found text, expected a list of texts\n"
     "  cautions = \"Take care.\"\n"
     "             ^"},
    {Kind::wrong_type,
     [](const Sample& rules) { rules.replace(sound, "[\"Take care.\"]", "[\"Take care.\", 1.5]"); },
     "rules/faults/sound.toml:10: cautions[1]: found a number, expected text\n"
     "  cautions = [\"Take care.\", 1.5]\n"
     "                            ^"},
    {Kind::wrong_type,
     [](const Sample& rules) { rules.replace(sound, "value = \"none\" },", "value = \"none\" }, 1"); },
     "rules/faults/sound.toml:34: case[1].readings[1]: found a whole number, expected a table\n"
     "    { quantity = \"polarity\", value = \"none\" }, 1\n"
     "                                               ^"},
    {Kind::empty_text,
     [](const Sample& rules) { rules.replace(coil, "\"invented for the tests\"", "\" \""); },
     "rules/coils/a.toml:3: source: found empty text, expected words\n"
     "  source = \" \"\n"
     "           ^"},
    {Kind::empty_list, [](const Sample& rules) { rules.replace(sound, "[\"Do what is right.\"]", "[]"); },
     "rules/faults/sound.toml:9: advice: found an empty list, expected a list of texts\n"
     "  advice = []\n"
     "           ^"},

    // Numbers.
    {Kind::not_finite, [](const Sample& rules) { rules.replace(coil, "[2.10, 2.62]", "[2.10, nan]"); },
     "rules/coils/a.toml:24: expect.inductance: found [2.1, nan], expected henry from 0.01 to 100\n"
     "  inductance = [2.10, nan]\n"
     "               ^"},
    {Kind::not_finite, [](const Sample& rules) { rules.replace(coil, "0.070", "inf"); },
     "rules/coils/a.toml:17: bobbin.flange_length: found inf, expected metre from 0.005 to 0.4\n"
     "  flange_length = inf\n"
     "                  ^"},
    {Kind::not_positive, [](const Sample& rules) { rules.replace(coil, "[5700, 6600]", "[-5700, 6600]"); },
     "rules/coils/a.toml:23: expect.dc_resistance: found [-5700, 6600], expected ohm from 50 to 200000\n"
     "  dc_resistance = [-5700, 6600]\n"
     "                  ^"},
    {Kind::not_positive,
     [](const Sample& rules) { rules.replace(coil, "test_frequency = 1000", "test_frequency = 0"); },
     "rules/coils/a.toml:21: expect.test_frequency: found 0, expected hertz, more than 0 and at most 20000\n"
     "  test_frequency = 0\n"
     "                   ^"},
    {Kind::not_positive, [](const Sample& rules) { rules.replace(sound, "prior = 0.3", "prior = 0.0"); },
     "rules/faults/sound.toml:5: prior: found 0, expected a number, more than 0 and at most 1000\n"
     "  prior = 0.0\n"
     "          ^"},
    {Kind::not_positive, [](const Sample& rules) { rules.replace(bench, "0.005", "0.0"); },
     "rules/bench.toml:14: reading[1].relative_uncertainty: found 0 here and in absolute_uncertainty, "
     "expected one "
     "of them above 0: no meter is exact\n"
     "  relative_uncertainty = 0.0\n"
     "                         ^"},
    {Kind::wrong_magnitude, [](const Sample& rules) { rules.replace(coil, "[5700, 6600]", "[5.7, 6.6]"); },
     "rules/coils/a.toml:23: expect.dc_resistance: found [5.7, 6.6], expected ohm from 50 to 200000; if that "
     "is in "
     "kiloohm, write [5700, 6600]\n"
     "  dc_resistance = [5.7, 6.6]\n"
     "                  ^"},
    {Kind::wrong_magnitude, [](const Sample& rules) { rules.replace(coil, "[2.10, 2.62]", "[2100, 2620]"); },
     "rules/coils/a.toml:24: expect.inductance: found [2100, 2620], expected henry from 0.01 to 100; if that "
     "is in "
     "millihenry, write [2.1, 2.62]\n"
     "  inductance = [2100, 2620]\n"
     "               ^"},
    {Kind::wrong_magnitude,
     [](const Sample& rules) { rules.replace(coil, "[70e-12, 155e-12]", "[70, 155]"); },
     "rules/coils/a.toml:26: expect.self_capacitance: found [70, 155], expected farad from 1e-13 to 5e-09; "
     "if that "
     "is in picofarad, write [7e-11, 1.55e-10]\n"
     "  self_capacitance = [70, 155]\n"
     "                     ^"},
    {Kind::wrong_magnitude,
     [](const Sample& rules) { rules.replace(coil, "[20e-12, 60e-12]", "[20e-6, 60e-6]"); },
     "rules/coils/a.toml:27: expect.frame_capacitance: found [2e-05, 6e-05], expected farad from 1e-13 to "
     "5e-09; if "
     "that is in microfarad, write [2e-11, 6e-11]\n"
     "  frame_capacitance = [20e-6, 60e-6]\n"
     "                      ^"},
    {Kind::wrong_magnitude, [](const Sample& rules) { rules.replace(coil, "[0.118, 0.126]", "[118, 126]"); },
     "rules/coils/a.toml:11: winding.mean_turn_length: found [118, 126], expected metre from 0.02 to 0.6; if "
     "that "
     "is in millimetre, write [0.118, 0.126]\n"
     "  mean_turn_length = [118, 126]\n"
     "                     ^"},
    {Kind::wrong_magnitude, [](const Sample& rules) { rules.replace(coil, "[7500, 8100]", "[7.5, 8.1]"); },
     "rules/coils/a.toml:10: winding.turns: found [7.5, 8.1], expected turns from 50 to 50000; if that is in "
     "thousands of turns, write [7500, 8100]\n"
     "  turns = [7.5, 8.1]\n"
     "          ^"},
    {Kind::wrong_magnitude,
     [](const Sample& rules) { rules.replace(coil, "awg = 42", "conductor_diameter = 63.3"); },
     "rules/coils/a.toml:6: wire.conductor_diameter: found 63.3, expected metre from 1e-05 to 0.0005; if "
     "that is in "
     "micrometre, write 6.33e-05\n"
     "  conductor_diameter = 63.3\n"
     "                       ^"},
    {Kind::wrong_magnitude, [](const Sample& rules) { rules.replace(coil, "[5700, 6600]", "[6e30, 7e30]"); },
     "rules/coils/a.toml:23: expect.dc_resistance: found [6e+30, 7e+30], expected ohm from 50 to 200000\n"
     "  dc_resistance = [6e30, 7e30]\n"
     "                  ^"},
    {Kind::out_of_bounds, [](const Sample& rules) { rules.replace(coil, "awg = 42", "awg = 420"); },
     "rules/coils/a.toml:6: wire.awg: found 420, expected a whole number from 24 to 56\n"
     "  awg = 420\n"
     "        ^"},
    {Kind::out_of_bounds,
     [](const Sample& rules) { rules.replace(coil, "test_frequency = 1000", "test_frequency = 20001"); },
     "rules/coils/a.toml:21: expect.test_frequency: found 20001, expected hertz, more than 0 and at most "
     "20000\n"
     "  test_frequency = 20001\n"
     "                   ^"},
    {Kind::out_of_bounds, [](const Sample& rules) { rules.replace(sound, "decide = 0.95", "decide = 95"); },
     "rules/faults/sound.toml:8: decide: found 95, expected a number from 0.5 to 1\n"
     "  decide = 95\n"
     "           ^"},
    {Kind::out_of_bounds, [](const Sample& rules) { rules.replace(leaky, "at_ends = 0.1", "at_ends = 0.6"); },
     "rules/faults/leaky.toml:28: severity[1].at_ends: found 0.6, expected a number from 0 to 0.5\n"
     "  at_ends = 0.6\n"
     "            ^"},
    {Kind::not_low_and_high, [](const Sample& rules) { rules.replace(coil, "[2.00, 2.70]", "[2.00]"); },
     "rules/coils/a.toml:25: expect.quality_factor: found [2], expected [low, high], in a number from 0.01 "
     "to 100\n"
     "  quality_factor = [2.00]\n"
     "                   ^"},
    {Kind::low_not_below_high,
     [](const Sample& rules) { rules.replace(coil, "[5700, 6600]", "[6600, 5700]"); },
     "rules/coils/a.toml:23: expect.dc_resistance: found [6600, 5700], expected [low, high] with low below "
     "high\n"
     "  dc_resistance = [6600, 5700]\n"
     "                  ^"},
    {Kind::low_not_below_high,
     [](const Sample& rules) { rules.replace(coil, "[5700, 6600]", "[6600, 6600]"); },
     "rules/coils/a.toml:23: expect.dc_resistance: found [6600, 6600], expected [low, high] with low below "
     "high\n"
     "  dc_resistance = [6600, 6600]\n"
     "                  ^"},
    {Kind::unknown_word, [](const Sample& rules) { rules.replace(coil, "\"series\"", "\"serial\""); },
     "rules/coils/a.toml:22: expect.circuit: found \"serial\", expected \"series\" or \"parallel\"\n"
     "  circuit = \"serial\"\n"
     "            ^"},
    {Kind::unknown_word,
     [](const Sample& rules) { rules.replace(leaky, "\"leak_position\"", "\"position\""); },
     "rules/faults/leaky.toml:25: severity[1].name: found \"position\", expected \"leak_resistance\" or "
     "\"leak_position\"\n"
     "  name = \"position\"\n"
     "         ^"},

    // What a file says as a whole.
    {Kind::id_is_not_file_name, [](const Sample& rules) { rules.replace(coil, "id = \"a\"", "id = \"b\""); },
     "rules/coils/a.toml:1: id: found \"b\", expected \"a\", as this file is named\n"
     "  id = \"b\"\n"
     "       ^"},
    {Kind::duplicate_id, [](const Sample& rules) { put_second_coil(rules, "coils/b.toml"); },
     "rules/coils/b.toml:1: id: found \"a\", which is the id of rules/coils/a.toml; expected \"b\", as this "
     "file is "
     "named\n"
     "  id = \"a\"\n"
     "       ^"},
    {Kind::duplicate_id, [](const Sample& rules) { put_second_coil(rules, "coils/0.toml"); },
     "rules/coils/0.toml:1: id: found \"a\", which is the id of rules/coils/a.toml; expected \"0\", as this "
     "file is "
     "named\n"
     "  id = \"a\"\n"
     "       ^"},
    {Kind::not_exactly_one, [](const Sample& rules) { rules.replace(coil, "awg = 42\n", ""); },
     "rules/coils/a.toml:5: wire: found neither, expected exactly one of awg and conductor_diameter\n"
     "  [wire]\n"
     "  ^"},
    {Kind::not_exactly_one,
     [](const Sample& rules) { rules.replace(coil, "awg = 42", "awg = 42\nconductor_diameter = 63.5e-6"); },
     "rules/coils/a.toml:5: wire: found both, expected exactly one of awg and conductor_diameter\n"
     "  [wire]\n"
     "  ^"},
    {Kind::flange_inside_core, [](const Sample& rules) { rules.replace(coil, "0.070", "0.050"); },
     "rules/coils/a.toml:17: bobbin.flange_length: found 0.05, expected more than core_length, which is "
     "0.056\n"
     "  flange_length = 0.050\n"
     "                  ^"},
    {Kind::said_twice,
     [](const Sample& rules) {
         rules.replace(leaky,
                       "\"leak_position\"\ndistribution = \"uniform\"\nbands = [[0, 1]]\nat_ends = 0.1",
                       "\"leak_resistance\"\ndistribution = \"uniform\"\nbands = [[1, 2]]");
     },
     "rules/faults/leaky.toml:17: severity: found none named \"leak_position\", expected one for this fault\n"
     "  [[severity]]\n"
     "  ^\n"
     "rules/faults/leaky.toml:25: severity[1].name: found \"leak_resistance\" a second time, expected each "
     "severity "
     "once\n"
     "  name = \"leak_resistance\"\n"
     "         ^"},
    {Kind::said_twice, [](const Sample& rules) { rules.replace(pickup, "\"two\"", "\"one\""); },
     "rules/pickups/pair.toml:15: coil[1].name: found the name of another coil, expected a name of its own\n"
     "  name = \"one\"\n"
     "         ^"},
    {Kind::said_twice, [](const Sample& rules) { rules.replace(pickup, "\"torn\"", "\"right\""); },
     "rules/pickups/pair.toml:35: joint[1].id: found the id of another joint, expected one of its own\n"
     "  id = \"right\"\n"
     "       ^"},
    {Kind::said_twice, [](const Sample& rules) { rules.replace(sound, "\"near miss\"", "\"fires\""); },
     "rules/faults/sound.toml:30: case[1].name: found the name of another case, expected a name of its own\n"
     "  name = \"fires\"\n"
     "         ^"},
    {Kind::said_twice,
     [](const Sample& rules) {
         rules.replace(bench, "quantity = \"inductance\"\nbetween = \"leads\"\nfrequency = 1000\n",
                       "quantity = \"dc_resistance\"\nbetween = \"leads\"\n");
     },
     "rules/bench.toml:10: reading[1].quantity: found the same quantity, points and frequency as in an "
     "earlier "
     "reading, expected each once\n"
     "  quantity = \"dc_resistance\"\n"
     "             ^"},
    {Kind::unknown_word,
     [](const Sample& rules) {
         rules.write(bench, rules.text_of(bench) + "\n[[handled]]\nhandling = \"pressed\"\nquantity = "
                                                   "\"inductance\"\nfrequency = 1000\nseconds = 30\n"
                                                   "relative_uncertainty = 0.01\nabsolute_uncertainty = 0\n"
                                                   "how = \"Press.\"\n");
     },
     "rules/bench.toml:24: handled[0].handling: found it with another reading, expected dc_resistance "
     "between "
     "the leads\n"
     "  handling = \"pressed\"\n"
     "             ^"},
    {Kind::overlapping_bands, [](const Sample& rules) { rules.replace(leaky, "[2000, 1e8]", "[900, 1e8]"); },
     "rules/faults/leaky.toml:20: severity[0].bands: found [10, 1000] before [900, 100000000], expected "
     "bands from "
     "low to high that do not touch\n"
     "  bands = [[10, 1000], [900, 1e8]]\n"
     "          ^"},
    {Kind::wrong_weight_count,
     [](const Sample& rules) {
         rules.replace(leaky, "bands = [[10, 1000], [2000, 1e8]]",
                       "bands = [[10, 1000], [2000, 1e8]]\nweights = [1.0]");
     },
     "rules/faults/leaky.toml:21: severity[0].weights: found 1, expected one for each of the 2 bands\n"
     "  weights = [1.0]\n"
     "            ^"},
    {Kind::missing_severity,
     [](const Sample& rules) {
         rules.replace(leaky,
                       "[[severity]]\nname = \"leak_position\"\ndistribution = \"uniform\"\nbands = [[0, "
                       "1]]\nat_ends = 0.1\npoints = 5\n",
                       "");
     },
     "rules/faults/leaky.toml:17: severity: found none named \"leak_position\", expected one for this fault\n"
     "  [[severity]]\n"
     "  ^"},
    {Kind::chances_do_not_sum, [](const Sample& rules) { rules.replace(sound, "0.98", "0.9"); },
     "rules/faults/sound.toml:12: polarity: found chances that sum to 0.92, expected 1\n"
     "  [polarity]\n"
     "  ^"},
    {Kind::too_few_cases, [](const Sample& rules) { rules.replace(sound, "fires = false", "fires = true"); },
     "rules/faults/sound.toml:21: case: found 2 with fires = true and 0 with fires = false, expected at "
     "least 1 of "
     "each in a fault of this status\n"
     "  [[case]]\n"
     "  ^"},
    {Kind::too_few_cases, [](const Sample& rules) { rules.replace(sound, "\"draft\"", "\"checked\""); },
     "rules/faults/sound.toml:21: case: found 1 with fires = true and 1 with fires = false, expected at "
     "least 2 of "
     "each in a fault of this status\n"
     "  [[case]]\n"
     "  ^"},
    {Kind::bad_reading,
     [](const Sample& rules) { rules.replace(sound, "unit = \"ohm\"", "unit = \"kiloohm\""); },
     "rules/faults/sound.toml:26: case[0].readings[0]: unit: found \"kiloohm\", expected \"ohm\"; convert "
     "the value\n"
     "    { quantity = \"dc_resistance\", value = 6000.0, unit = \"kiloohm\", standard_uncertainty = 9.0 },\n"
     "    ^"},
    {Kind::wrong_coil_count,
     [](const Sample& rules) {
         rules.replace(pickup, "join = \"series\"\ncoupling = [0.03, 0.25]\ndecide = 0.9",
                       "join = \"single\"");
         std::string text = rules.text_of(pickup);
         rules.write(pickup, text.substr(0, text.find("[[joint]]")));
     },
     "rules/pickups/pair.toml:6: coil: found 2, expected 1 in a single coil\n"
     "  [[coil]]\n"
     "  ^"},
    {Kind::wrong_coil_count,
     [](const Sample& rules) {
         rules.replace(pickup,
                       "[[coil]]\nname = \"two\"\nwinding = \"counter-clockwise\"\nmagnet = \"south-up\"\n",
                       "");
     },
     "rules/pickups/pair.toml:8: coil: found 1, expected at least 2 where coils are joined\n"
     "  [[coil]]\n"
     "  ^"},
    {Kind::not_exactly_one_joint,
     [](const Sample& rules) {
         rules.replace(pickup, "change = \"unlisted\"", "change = \"coil-reversed\"");
     },
     "rules/pickups/pair.toml:27: joint: found 0 with change = \"unlisted\", expected exactly one\n"
     "  [[joint]]\n"
     "  ^"},

    // Between files.
    {Kind::unknown_coil_model,
     [](const Sample& rules) { rules.replace(pickup, "[\"a\"]", "[\"a\", \"b\"]"); },
     "rules/pickups/pair.toml:10: coil[0].models: found \"b\", expected ids of files in coils/\n"
     "  models = [\"a\", \"b\"]\n"
     "           ^"},
    {Kind::unknown_coil_model,
     [](const Sample& rules) {
         rules.replace(sound, "fires = true\ncoil_model = \"a\"", "fires = true\ncoil_model = \"b\"");
     },
     "rules/faults/sound.toml:24: case[0].coil_model: found \"b\", expected the id of a file in coils/\n"
     "  coil_model = \"b\"\n"
     "               ^"},
    {Kind::not_exactly_one_fault, [](const Sample& rules) { fs::remove(rules.folder() / sound); },
     "rules/faults: found 0 faults with primitive = \"none\", expected exactly one"},
    {Kind::not_exactly_one_fault,
     [](const Sample& rules) { rules.replace(other, "\"unlisted\"", "\"none\""); },
     "rules/faults: found 2 faults with primitive = \"none\", expected exactly one\n"
     "rules/faults: found 0 faults with primitive = \"unlisted\", expected exactly one"},
};

TEST(Complaints, NoneAboutTheSampleRules) {
    const Sample rules;
    const LoadedRules loaded = read_rules(rules.folder());
    for (const Complaint& complaint : loaded.complaints)
        ADD_FAILURE() << complaint.text();
    EXPECT_EQ(loaded.rules.coil_models.size(), 1U);
    EXPECT_EQ(loaded.rules.pickup_types.size(), 1U);
    EXPECT_EQ(loaded.rules.faults.size(), 3U);
    EXPECT_EQ(loaded.rules.bench_readings.size(), 3U);
}

TEST(Complaints, SayAllThatIsWrongAndNothingElse) {
    for (const Row& row : rows) {
        const Sample rules;
        row.spoil(rules);
        std::string text;
        std::set<Kind> kinds;
        for (const Complaint& complaint : read_rules(rules.folder()).complaints) {
            text += (text.empty() ? "" : "\n") + rules.relative(complaint.text());
            kinds.insert(complaint.kind);
        }
        EXPECT_EQ(text, row.text);
        EXPECT_TRUE(kinds.contains(row.kind)) << row.text;
    }
}

TEST(Complaints, TheTableHoldsEveryKind) {
    std::set<Kind> kinds;
    for (const Row& row : rows)
        kinds.insert(row.kind);
    for (int kind = 0; kind < static_cast<int>(Kind::count); ++kind)
        EXPECT_TRUE(kinds.contains(static_cast<Kind>(kind))) << "no row for kind " << kind;
}

} // namespace
} // namespace coilward
