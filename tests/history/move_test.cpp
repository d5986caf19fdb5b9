#include "any_store.h"
#include "examples.h"
#include "history/attachment.h"
#include "history/base64.h"
#include "history/history_export.h"
#include "history/upkeep.h"
#include "refusal.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::Kind;
using testing::Store;

/// From a file to a file or a server, and back.
struct Move : testing::AnyStore {
    Store file{Kind::sqlite};
    History from{file.address()};

    Move() {
        const auto bridge = from.add_pickup(testing::bridge());
        auto neck = from.add_pickup(testing::neck());
        const auto visit = testing::visit_of(neck, 10, "2026-03-02T10:00:00Z");
        from.begin_visit(visit);
        const auto wrong = testing::stored(visit, 20, testing::dc_resistance(1.0 / 3.0));
        auto right = testing::stored(visit, 21, testing::dc_resistance(6112.0));
        right.corrects = wrong.id;
        right.raw = std::string("\x00\xff", 2);
        from.append_readings(std::vector{wrong, right});
        from.store_verdict(testing::verdict(visit, 30, "", true));
        neck.owner = "Ä. Nonymous";
        from.edit_pickup(neck, testing::id(40), testing::at("2027-01-01T00:00:00Z"));
        from.attach(testing::label_of(bridge, visit.at), testing::label);
    }
};

TEST_P(Move, LosesNothingAndAgainBringsNothing) {
    const auto before = everything_to_json(from);
    {
        History to(store.address());
        const auto moved = move_history(from, to);
        EXPECT_EQ(moved.pickups, 2U);
        EXPECT_EQ(moved.readings, 2U);
        EXPECT_EQ(everything_to_json(to), before);
        EXPECT_EQ(readings_to_csv(to), readings_to_csv(from)) << "the pickups keep their numbers";
        const auto again = move_history(from, to);
        EXPECT_EQ(again.pickups + again.values + again.visits + again.readings + again.attachments, 0U);
    }
    const Store home(Kind::sqlite);
    History back(home.address());
    move_history(History(store.address()), back);
    EXPECT_EQ(everything_to_json(back), before);
    EXPECT_EQ(everything_to_json(from), before);
}

TEST_P(Move, SaysWhereTheOtherHistoryHoldsMore) {
    History to(store.address());
    move_history(from, to);
    to.begin_visit(testing::visit_of(testing::bridge(), 90, "2028-01-01T00:00:00Z"));
    EXPECT_EQ(testing::refusal<HistoryError>([&] { move_history(from, to); }),
              store.place() + ": the pickup 1 (\"Bridge, red guitar\") is not what it is in " + from.place() +
                  "; " + store.place() + " holds more of it, use coilward merge the other way first");
}

TEST_P(Move, BacksUpIntoAFile) {
    History to(store.address());
    move_history(from, to);
    const testing::TemporaryFolder folder;
    back_up(to, folder.file());
    EXPECT_EQ(everything_to_json(History(folder.path())), everything_to_json(from));
}

COILWARD_FOR_ANY_STORE(Move);

// FIPS 180-4's examples (NIST, "SHA-256 example values"): of "abc" and of the two-block message.
TEST(ContentHash, IsSha256) {
    EXPECT_EQ(text_of(content_hash("abc")),
              "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(text_of(content_hash("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")),
              "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

// RFC 4648, section 10.
TEST(Base64, IsThatOfRfc4648) {
    const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                           {"f", "Zg=="},
                                                           {"fo", "Zm8="},
                                                           {"foo", "Zm9v"},
                                                           {"foob", "Zm9vYg=="},
                                                           {"fooba", "Zm9vYmE="},
                                                           {"foobar", "Zm9vYmFy"}};
    for (const auto& [bytes, text] : vectors) {
        EXPECT_EQ(in_base64(bytes), text);
        EXPECT_EQ(from_base64(text), bytes);
    }
    for (const char* wrong : {"Zg=", "Zg", "Z===", "Zh==", "Z!==", "Zm9v\n"})
        EXPECT_EQ(from_base64(wrong), std::nullopt) << wrong;
}

} // namespace
} // namespace coilward
