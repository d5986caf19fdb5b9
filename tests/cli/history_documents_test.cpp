#include "program_run.h"

#include <filesystem>
#include <fstream>

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

// Every document that the commands about the history and about rewinding print, against its JSON Schema, by a
// general validator (Debian's python3-jsonschema). They work on the invented shop of docs/shop.json.

namespace coilward::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

const std::filesystem::path docs = COILWARD_SOURCE_DIR "/docs";
const std::string shop = docs / "shop.json";

struct HistoryDocuments : Coilward {
    HistoryDocuments() { EXPECT_EQ(coilward({"import", shop}).exit_code, 0); }

    std::string written(const std::string& name, const std::string& text) const {
        const auto file = folder.path() / name;
        std::ofstream(file, std::ios::binary) << text;
        return file;
    }

    static ProgramEnd validate(const std::string& file, const std::string& schema) {
        return run_program("/usr/bin/python3",
                           {"-m", "jsonschema", "-i", file, docs / "schemas" / (schema + ".schema.json")});
    }
};

struct Printed {
    const char* schema;
    std::vector<std::string> words;
};

TEST_F(HistoryDocuments, KeepToTheirSchemas) {
    const Printed documents[] = {
        {"export", {"export"}},
        {"pickups", {"pickup", "list", "--json"}},
        {"pickups", {"pickup", "list", "--find", "zither", "--json"}},
        {"pickup", {"pickup", "show", "neck-red-guitar", "--json"}},
        {"pickup", {"pickup", "add", "--name", "New", "--json"}},
        {"history", {"history", "bridge-red-guitar", "--json"}},
        {"plan", {"plan", "--model", "strip-44", "--turns", "5000", "--json"}},
        {"plan",
         {"plan", "--core", "56mm,4.8mm", "--flange", "70mm,16mm", "--height", "10.5mm", "--awg", "42",
          "--model", "six-rod-42", "--as-it-was", "bridge-blue-guitar", "--controls", "250k", "--cable",
          "500p", "--json"}},
        {"confirmation", {"confirm", "neck-red-guitar", "--turns", "7950", "--json"}},
        {"confirmation", {"confirm", "neck-red-guitar", "--limit", "dc_resistance=6k..", "--json"}},
        {"comparison", {"compare", "neck-red-guitar", "--json"}},
        {"comparison",
         {"compare", "neck-red-guitar", "middle-red-guitar", "bridge-red-guitar", "--pair", "--json"}},
        {"chart", {"chart", "six-rod-42", "--json"}},
        {"chart", {"chart", "six-rod-42", "--quantity", "inductance", "--json"}},
        {"spool",
         {"spool", "--awg", "44", "--length", "10±0.01", "--resistance", "85.2@21.3", "--resistance",
          "85.3@21.6", "--resistance-uncertainty", "0.05", "--json"}},
    };
    for (const auto& [schema, words] : documents) {
        SCOPED_TRACE(words.front() + " against " + schema);
        const ProgramEnd printed = coilward(words);
        ASSERT_EQ(printed.exit_code, 0) << printed.err;
        const ProgramEnd validated = validate(written("document.json", printed.out), schema);
        EXPECT_EQ(validated.exit_code, 0) << validated.err << printed.out;
    }
}

TEST_F(HistoryDocuments, ExampleIsWhatTheProgramExports) {
    std::ifstream stream(shop);
    const auto example = nlohmann::json::parse(stream);
    EXPECT_EQ(validate(shop, "export").exit_code, 0);
    EXPECT_EQ(nlohmann::json::parse(coilward({"export"}).out), example);
}

TEST_F(HistoryDocuments, ThatAreWrongDoNotPass) {
    const std::pair<const char*, const char*> wrong[] = {
        {"export", R"({"histories": [{"pickup": {}, "visits": []}]})"},
        {"pickups", R"({"pickups": [{"name": "Neck"}]})"},
        {"plan", R"({"turns": 8000})"},
        {"confirmation", R"({"decision": "perhaps"})"},
        {"comparison", R"({"coils": []})"},
        {"chart", R"({"coils": []})"},
        {"spool", R"({"claimed_awg": "44"})"},
    };
    for (const auto& [schema, text] : wrong)
        EXPECT_NE(validate(written("wrong.json", text), schema).exit_code, 0) << schema;
}

TEST_F(HistoryDocuments, ImportRefusesAWrongFileInOneLineAndKeepsNothing) {
    const auto before = coilward({"export"}).out;
    const auto file = written("broken.json", R"({"histories": [{"pickup": {"id": "7"}}]})");
    EXPECT_EQ(coilward({"import", file}),
              (ProgramEnd{.exit_code = 3,
                          .out = "",
                          .err = "coilward: " + file +
                                 ": histories[0].pickup.id: found \"7\", expected an id such as "
                                 "\"0f8fad5b-d9cb-469f-a165-70867728950e\"; nothing was imported\n"}));
    const auto table =
        written("table.csv", "name,visit_at,quantity,value\r\nNew,2026-03-02T10:00:00Z,dc_resistance,6112\r\n"
                             "New,2026-03-02T10:00:00Z,dc_resistance,6.1k\r\n");
    EXPECT_EQ(
        coilward({"import", "--csv", table}),
        (ProgramEnd{
            .exit_code = 3,
            .out = "",
            .err = "coilward: " + table +
                   ": line 3, value: found \"6.1k\", expected a number with a decimal point and without a "
                   "unit, such as 6112 or 4.6e-11; nothing was imported\n"}));
    EXPECT_EQ(coilward({"export"}).out, before);
}

TEST_F(HistoryDocuments, MoveAndCsvLoseNothing) {
    const TemporaryFolder other;
    EXPECT_EQ(coilward({"history", "move", folder.path(), other.path()}).exit_code, 0);
    const auto exported = coilward({"export"}).out;
    const auto of_other = [&](std::vector<std::string> words) {
        words.insert(words.end(), {"--data", other.path()});
        return run_program(COILWARD_PROGRAM, std::move(words)).out;
    };
    EXPECT_EQ(of_other({"export"}), exported);
    EXPECT_EQ(of_other({"export", "--csv"}), coilward({"export", "--csv"}).out);
}

TEST_F(HistoryDocuments, CorrectingKeepsBothReadings) {
    const auto shown = coilward({"history", "neck-red-guitar", "--ids"}).out;
    const auto line = shown.rfind("DC resistance");
    const auto id = shown.substr(shown.rfind('\n', line) + 1, 8);
    const ProgramEnd end = coilward(
        {"history", "correct", "neck-red-guitar", id, "--value", "6.12k", "--why", "misread the range"});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    EXPECT_THAT(end.out, StartsWith("DC resistance: 6.120 ± 0.009 kΩ in place of "));
    const auto after = coilward({"history", "neck-red-guitar"}).out;
    EXPECT_THAT(after, HasSubstr("misread the range"));
    EXPECT_THAT(after, HasSubstr("x corrected by a reading below it"));
    EXPECT_EQ(coilward({"history", "correct", "neck-red-guitar", "zzzz", "--value", "1", "--why", "x"}).err,
              "coilward: READING: \"zzzz\" begins the id of 0 readings of Neck, red guitar; coilward history "
              "2 --ids shows "
              "them; see coilward history correct --help\n");
}

TEST_F(HistoryDocuments, AttachmentsComeBackAsTheyWere) {
    const std::string bytes("\x89PNG\r\n\0 not really", 18);
    const auto file = written("break.png", bytes);
    EXPECT_THAT(coilward({"pickup", "attach", "bridge-blue", file, "--note", "start lead"}).out,
                StartsWith("Pickup 1: break.png attached, 18 bytes, SHA-256 "));
    EXPECT_THAT(coilward({"pickup", "show", "bridge-blue"}).out, HasSubstr("break.png (image/png, "));
    const auto back = (folder.path() / "back.png").string();
    EXPECT_EQ(coilward({"pickup", "fetch", "bridge-blue", "break.png", back}).exit_code, 0);
    std::ifstream stream(back, std::ios::binary);
    EXPECT_EQ(std::string(std::istreambuf_iterator<char>(stream), {}), bytes);
    EXPECT_EQ(coilward({"verify"}).exit_code, 0);
}

TEST_F(HistoryDocuments, StagesAreVisits) {
    EXPECT_EQ(coilward({"pickup", "stage", "bridge-blue", "potted", "--note", "wax at 62 °C"}).out,
              "Pickup 1: potted\n");
    EXPECT_THAT(coilward({"history", "bridge-blue"}).out, HasSubstr("  potted\n  wax at 62 °C\n"));
    EXPECT_EQ(coilward({"pickup", "stage", "bridge-blue", "painted"}).exit_code, 2);
}

TEST_F(HistoryDocuments, PicturesAreSvg) {
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"chart", "six-rod-42", "--svg"},
          {"spool", "--awg", "44", "--length", "10±0.01", "--resistance", "70.5", "--resistance-uncertainty",
           "0.05", "--svg"}}) {
        const ProgramEnd end = coilward(words);
        EXPECT_EQ(end.exit_code, 0) << end.err;
        EXPECT_THAT(end.out, StartsWith("<svg xmlns="));
        const auto file = written("picture.svg", end.out);
        EXPECT_EQ(run_program("/usr/bin/python3",
                              {"-c", "import sys, xml.dom.minidom as m; m.parse(sys.argv[1])", file})
                      .exit_code,
                  0);
    }
}

TEST_F(HistoryDocuments, PlanSaysWhereEachInputComesFrom) {
    const auto plan = nlohmann::json::parse(
        coilward({"plan", "--model", "strip-44", "--turns", "5000", "--temperature", "22±0.5", "--json"})
            .out);
    const auto& sources = plan["inputs"]["sources"];
    EXPECT_EQ(sources["core"], "the coil model strip-44");
    EXPECT_EQ(sources["wire size"], "the coil model strip-44");
    EXPECT_EQ(sources["self-capacitance"], "the coil model strip-44");
    EXPECT_EQ(sources["temperature"], "said");
    EXPECT_EQ(sources["packing"], "assumed: 0.75 ± 0.08, own estimate for scatter winding");
    const auto sister = nlohmann::json::parse(
        coilward({"plan", "--core", "56mm,4.8mm", "--flange", "70mm,16mm", "--height", "10.5mm", "--awg",
                  "42", "--turns", "8000", "--sister-turns", "8000", "--sister-inductance", "2.4", "--json"})
            .out);
    EXPECT_EQ(sister["inputs"]["sources"]["self-capacitance"],
              "assumed: 100 ± 40 pF, own estimate; --model or --self-capacitance says better");
    EXPECT_EQ(coilward({"plan", "--turns", "8000"}).err,
              "coilward: --core: say it, or name a coil model that has a [bobbin] with --model; see coilward "
              "plan --help\n");
}

} // namespace
} // namespace coilward::testing
