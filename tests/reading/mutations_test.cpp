#include "reading/examination_json.h"
#include "sample_documents.h"

#include <random>

#include <gtest/gtest.h>

namespace coilward {
namespace {

std::string mutated(std::string text, std::mt19937& random) {
    const auto below = [&](std::size_t end) {
        return std::uniform_int_distribution<std::size_t>(0, end - 1)(random);
    };
    for (auto changes = 1 + below(4); changes > 0 && !text.empty(); --changes) {
        const auto place = below(text.size());
        switch (below(4)) {
        case 0:
            text[place] = static_cast<char>(below(256));
            break;
        case 1:
            text[place] = static_cast<char>(text[place] ^ static_cast<char>(1u << below(8)));
            break;
        case 2:
            text.erase(place, 1 + below(12));
            break;
        default:
            text.resize(place);
            break;
        }
    }
    return text;
}

TEST(Mutations, EitherParseOrGiveOneLineOfComplaint) {
    std::mt19937 random(58);
    int parsed = 0;
    int refused = 0;
    for (int i = 0; i < 2000; ++i) {
        const auto text = mutated(std::string(i % 2 == 0 ? one_coil : two_coils), random);
        try {
            examination_from_json(text);
            ++parsed;
        } catch (const BadDocument& error) {
            ++refused;
            const std::string what = error.what();
            EXPECT_FALSE(what.empty()) << text;
            EXPECT_EQ(what.find_first_of("\r\n"), std::string::npos) << what;
            EXPECT_LT(what.size(), 400u) << what;
        } catch (const std::exception& error) {
            ADD_FAILURE() << "another exception: " << error.what() << "\nfor: " << text;
        }
    }
    // Both ends are reached, so that the loop does test something.
    EXPECT_GT(parsed, 50);
    EXPECT_GT(refused, 1000);
}

TEST(Mutations, DeepNestingIsRefusedAndNotRecursedInto) {
    const std::string brackets(200000, '[');
    EXPECT_THROW(examination_from_json(brackets), BadDocument);
    const auto closed =
        R"({"coil_model": "m", "x": )" + brackets + std::string(200000, ']') + R"(, "readings": 1})";
    EXPECT_THROW(examination_from_json(closed), BadDocument);
}

} // namespace
} // namespace coilward
