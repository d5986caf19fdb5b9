// `coilward diagnose PICKUP` beside the other pickups of its instrument.

#include "cli/program_run.h"
#include "history/examples.h"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using testing::Coilward;
using testing::dc_resistance;
using testing::neck;
using testing::stored;
using testing::verdict;
using testing::visit_of;

/// Pickups 1 to 3 of one red guitar, the last two judged sound; the first was read today.
struct RedGuitar : Coilward {
    History history{folder.path()};

    RedGuitar() {
        const char* names[] = {"Neck", "Middle", "Bridge"};
        const double ohms[] = {6112.0, 6101.0, 6146.0};
        for (unsigned n = 0; n < 3; ++n) {
            Pickup pickup = neck();
            pickup.id = testing::id(n + 1);
            pickup.name = names[n];
            const Visit visit = visit_of(history.add_pickup(pickup), n + 10, "2026-03-02T10:00:00Z");
            history.begin_visit(visit);
            history.append_reading(stored(visit, n + 20, dc_resistance(ohms[n])));
            if (n > 0) history.store_verdict(verdict(visit, n + 30, "", true));
        }
    }

    /// What the answer's notes hold it beside, in their order.
    std::vector<std::string> beside(std::vector<std::string> words) const {
        words.insert(words.begin(), {"diagnose", "neck", "--json"});
        const auto end = coilward(words);
        EXPECT_EQ(end.exit_code, 0) << end.err;
        const auto answer = nlohmann::json::parse(end.out);
        std::vector<std::string> notes;
        for (const std::string note : answer.at("notes"))
            if (note.starts_with("held beside ")) notes.push_back(note);
        return notes;
    }

    double expected_width(std::vector<std::string> words) const {
        words.insert(words.begin(), {"diagnose", "neck", "--json"});
        const auto range = nlohmann::json::parse(coilward(words).out).at("comparisons").at(0).at("expected");
        return range.at(1).get<double>() - range.at(0).get<double>();
    }
};

TEST_F(RedGuitar, HoldsAPickupBesideEachOtherOfItOnce) {
    const std::string date = ", as it was judged sound on 2026-03-02";
    const std::string presumed = date + "; judge it alone if the two were not made as a set";
    const std::string middle = "held beside Middle (pickup 2), of the same owner and instrument" + presumed;
    const std::string bridge = "held beside Bridge (pickup 3), of the same owner and instrument" + presumed;
    const std::string set = "held beside Middle (pickup 2), said to be of its set" + date;
    const std::string twin = "held beside Middle (pickup 2), said to be its twin" + date;

    const struct {
        std::vector<std::string> words;
        std::vector<std::string> notes;
    } rows[] = {
        {{}, {middle, bridge}},
        {{"--alone"}, {}},
        {{"--set", "middle"}, {set, bridge}},
        {{"--twin", "middle"}, {twin, bridge}},
        {{"--set", "middle", "--alone"}, {set}},
    };

    for (const auto& row : rows)
        EXPECT_EQ(beside(row.words), row.notes) << ::testing::PrintToString(row.words);

    // Named and known by itself counts once: as much is known as where the history alone knows it.
    EXPECT_DOUBLE_EQ(expected_width({"--set", "middle", "--set", "bridge"}), expected_width({}));
    EXPECT_LT(expected_width({}), 0.95 * expected_width({"--alone"}));
}

TEST_F(RedGuitar, AnswersOnANewWindingAlone) {
    Visit rewound = visit_of(*history.pickup(1), 40, "2026-04-02T10:00:00Z");
    rewound.rewound = true;
    history.begin_visit(rewound);
    history.append_reading(stored(rewound, 41, dc_resistance(6112.0)));
    EXPECT_TRUE(beside({}).empty());
    EXPECT_EQ(beside({"--set", "middle"}).size(), 1U) << "a person may know better";
    EXPECT_DOUBLE_EQ(expected_width({}), expected_width({"--alone"}));
}

TEST_F(RedGuitar, ConfirmsARewindByNoOtherPickup) {
    const auto confirmed = [&] {
        const auto end = coilward({"confirm", "neck"});
        EXPECT_EQ(end.exit_code, 0) << end.err;
        return end.out;
    };
    const std::string beside_others = confirmed();
    for (const char* other : {"middle", "bridge"})
        ASSERT_EQ(coilward({"pickup", "edit", other, "--owner", "B. Nonymous"}).exit_code, 0);
    EXPECT_TRUE(beside({}).empty());
    EXPECT_EQ(confirmed(), beside_others);
}

TEST_F(RedGuitar, RefusesToCountAPickupTwice) {
    const struct {
        std::vector<std::string> words;
        std::string line;
    } rows[] = {
        {{"--set", "middle", "--set", "2"},
         "--set: Middle is named twice; name it once, as its twin or of its set"},
        {{"--set", "middle", "--twin", "middle"},
         "--set: Middle is named twice; name it once, as its twin or of its set"},
        {{"--twin", "neck"}, "--twin: Neck is the pickup itself; its own past counts without a word"},
    };

    for (const auto& row : rows) {
        auto words = row.words;
        words.insert(words.begin(), {"diagnose", "neck"});
        const auto end = coilward(words);
        EXPECT_EQ(end.exit_code, 2) << row.line;
        EXPECT_EQ(end.err, "coilward: " + row.line + "; see coilward diagnose --help\n");
        EXPECT_EQ(end.out, "");
    }
}

} // namespace
} // namespace coilward
