#include "history/id.h"

#include <set>

#include <gtest/gtest.h>

namespace coilward {
namespace {

TEST(Id, ReadsAndWritesTheExampleOfTheStandard) {
    // RFC 9562, appendix A.3: an example of a version 4 UUID.
    const std::string text = "919108f7-52d1-4320-9bac-f847db4148a8";
    const auto id = id_from_text(text);
    ASSERT_TRUE(id);
    EXPECT_EQ(id->bytes, (std::array<std::uint8_t, 16>{0x91, 0x91, 0x08, 0xf7, 0x52, 0xd1, 0x43, 0x20, 0x9b,
                                                       0xac, 0xf8, 0x47, 0xdb, 0x41, 0x48, 0xa8}));
    EXPECT_EQ(text_of(*id), text);
    EXPECT_EQ(id_from_text("919108F7-52D1-4320-9BAC-F847DB4148A8"), id);
}

TEST(Id, RefusesWhatIsNoId) {
    for (const char* text :
         {"", "919108f7-52d1-4320-9bac-f847db4148a", "919108f7-52d1-4320-9bac-f847db4148a80",
          "919108f7-52d1-4320-9bac-f847db4148ag", "919108f7052d1-4320-9bac-f847db4148a8",
          "9-9108f7-52d1-4320-9bac-f847db4148a8", "919108f752d143209bacf847db4148a8"})
        EXPECT_FALSE(id_from_text(text)) << text;
}

TEST(Id, RandomOnesAreVersion4AndDiffer) {
    std::set<Id> ids;
    for (int n = 0; n < 1000; ++n) {
        const auto id = random_id();
        // RFC 9562, sections 4.1 and 5.4: the version is the high nibble of octet 6, the variant 10 of
        // octet 8.
        EXPECT_EQ(id.bytes[6] >> 4, 4);
        EXPECT_EQ(id.bytes[8] >> 6, 2);
        ids.insert(id);
    }
    EXPECT_EQ(ids.size(), 1000U);
}

} // namespace
} // namespace coilward
