#include "rules/rules.h"
#include "sample_rules.h"

#include <fstream>
#include <map>
#include <sstream>

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// The TOML examples of docs/formats-rules.md by the file that their first line names.
std::map<std::string, std::string> documented_examples() {
    std::ifstream document(COILWARD_SOURCE_DIR "/docs/formats-rules.md");
    std::map<std::string, std::string> examples;
    std::string line;
    while (std::getline(document, line)) {
        if (line != "```toml") continue;
        std::getline(document, line);
        std::string& example = examples[line.substr(line.find_first_not_of("# "))];
        while (std::getline(document, line) && line != "```")
            example += line + "\n";
    }
    return examples;
}

TEST(DocumentedExamples, AreRulesWithoutComplaint) {
    const SampleRules sample;
    const auto examples = documented_examples();
    for (const auto& [file, text] : examples)
        sample.write(file, text);
    const LoadedRules loaded = read_rules(sample.folder());
    for (const Complaint& complaint : loaded.complaints)
        ADD_FAILURE() << sample.relative(complaint.text());
    for (const char* model : {"my-coil", "my-measured-coil"})
        EXPECT_TRUE(loaded.rules.coil_model(model)) << model;
    EXPECT_TRUE(loaded.rules.pickup_type("my-single"));
    EXPECT_TRUE(loaded.rules.fault("one-turn-more"));
    EXPECT_EQ(loaded.rules.bench_readings.size(), 3U);
}

TEST(DocumentedExamples, OfAComplaintIsWhatIsSaid) {
    const SampleRules sample;
    std::string text = documented_examples().at("coils/my-coil.toml");
    text.replace(text.find("[5700, 6600]"), 12, "[5.7, 6.6]");
    sample.write("coils/my-coil.toml", text);
    const LoadedRules loaded = read_rules(sample.folder());
    ASSERT_EQ(loaded.complaints.size(), 1U);
    std::ifstream document(COILWARD_SOURCE_DIR "/docs/formats-rules.md");
    std::ostringstream whole;
    whole << document.rdbuf();
    const std::string said = sample.relative(loaded.complaints[0].text());
    EXPECT_NE(whole.str().find("```\n" + said + "\n```"), std::string::npos) << said;
}

} // namespace
} // namespace coilward
