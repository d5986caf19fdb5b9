#include "rules/rules.h"
#include "sample_rules.h"

#include <algorithm>

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// Whatever happens to a file, the reader answers with rules or with complaints that can be printed.
void expect_an_answer(const SampleRules& sample) {
    for (const Complaint& complaint : read_rules(sample.folder()).complaints) {
        EXPECT_FALSE(complaint.expected.empty());
        EXPECT_EQ(complaint.headline().find('\n'), std::string::npos) << complaint.headline();
        const std::string text = complaint.text();
        const auto is_control = [](char c) {
            return static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t';
        };
        EXPECT_TRUE(std::ranges::none_of(text, is_control)) << text;
    }
}

class Damage : public testing::TestWithParam<const char*> {};

TEST_P(Damage, ByCuttingIsAnswered) {
    const SampleRules sample;
    const std::string whole = sample.text_of(GetParam());
    for (std::size_t length = 0; length < whole.size(); length += 5) {
        sample.write(GetParam(), whole.substr(0, length));
        expect_an_answer(sample);
    }
}

TEST_P(Damage, OfOneByteIsAnswered) {
    const SampleRules sample;
    const std::string whole = sample.text_of(GetParam());
    for (std::size_t at = 0; at < whole.size(); at += 7)
        for (const char byte : {'\0', '\n', '"', '[', '\xFF'}) {
            std::string damaged = whole;
            damaged[at] = byte;
            sample.write(GetParam(), damaged);
            expect_an_answer(sample);
        }
}

INSTANTIATE_TEST_SUITE_P(EachKindOfFile, Damage,
                         testing::Values("coils/a.toml", "pickups/pair.toml", "faults/leaky.toml",
                                         "bench.toml"));

TEST(DeepNesting, IsAnswered) {
    const SampleRules sample;
    std::string dotted = "a";
    for (int i = 0; i < 1990; ++i)
        dotted += ".a";
    for (const std::string& text :
         {dotted + " = 1\n", "[" + dotted + "]\n", "a = " + std::string(3000, '[') + "\n"}) {
        sample.write("coils/b.toml", text);
        expect_an_answer(sample);
    }
}

} // namespace
} // namespace coilward
