#include "program_run.h"

#include <filesystem>
#include <fstream>

// The documents of docs/formats.md: each example, and the program's answer to it, against its JSON Schema, by
// a general validator (Debian's python3-jsonschema).

namespace coilward::testing {
namespace {

const std::filesystem::path docs = COILWARD_SOURCE_DIR "/docs";

ProgramEnd validate(const std::filesystem::path& document, const char* schema) {
    return run_program("/usr/bin/python3",
                       {"-m", "jsonschema", "-i", document.string(), (docs / "schemas" / schema).string()});
}

using Documents = Coilward;

TEST_F(Documents, ExamplesAndTheirAnswersKeepToTheirSchemas) {
    std::size_t examples = 0;
    for (const auto& entry : std::filesystem::directory_iterator(docs / "examples")) {
        SCOPED_TRACE(entry.path().string());
        const ProgramEnd read = validate(entry.path(), "readings.schema.json");
        EXPECT_EQ(read.exit_code, 0) << read.err;

        const ProgramEnd answer = coilward({"diagnose", "--readings", entry.path().string(), "--json"});
        ASSERT_EQ(answer.exit_code, 0) << answer.err;
        const std::filesystem::path file = std::filesystem::path(folder.path()) / "answer.json";
        std::ofstream(file) << answer.out;
        const ProgramEnd answered = validate(file, "diagnosis.schema.json");
        EXPECT_EQ(answered.exit_code, 0) << answered.err;
        ++examples;
    }
    EXPECT_GE(examples, 3U);
}

TEST_F(Documents, ThatAreWrongDoNotPass) {
    const std::filesystem::path file = std::filesystem::path(folder.path()) / "wrong.json";
    for (const char* wrong :
         {R"({"readings": []})", R"({"coil_model": "x", "readings": [{"quantity": "weight"}]})",
          R"({"coil_model": "x", "pickup_type": "y", "coils": {}, "readings": []})"}) {
        std::ofstream(file) << wrong;
        EXPECT_NE(validate(file, "readings.schema.json").exit_code, 0) << wrong;
    }
}

} // namespace
} // namespace coilward::testing
