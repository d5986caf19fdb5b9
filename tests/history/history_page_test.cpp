#include "examples.h"
#include "history/history_page.h"
#include "temporary_folder.h"

#include <algorithm>
#include <sstream>

#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::at;
using testing::bridge;
using testing::dc_resistance;
using testing::id;
using testing::neck;
using testing::stored;
using testing::verdict;
using testing::visit_of;

/// Characters of a UTF-8 text: those bytes that do not continue one.
std::size_t columns(const std::string& text) {
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char byte) { return (byte & 0xc0) != 0x80; }));
}

void expect_to_fit(const std::string& page) {
    std::istringstream lines(page);
    for (std::string line; std::getline(lines, line);)
        EXPECT_LE(columns(line), 100U) << line;
}

TEST(AnswerInWords, SaysWhatTheMeterSaid) {
    const std::pair<Reading, const char*> examples[] = {
        {dc_resistance(6112.0), "6.112 ± 0.009 kΩ"},
        {{.quantity = Quantity::inductance, .value = 2.331}, "2.331 H"},
        {{.quantity = Quantity::temperature, .value = 21.4}, "21.40 °C"},
        {{.quantity = Quantity::insulation_resistance, .state = State::over_range, .limit = 2.0e7},
         "over 20.00 MΩ"},
        {{.quantity = Quantity::dc_resistance, .state = State::over_range}, "over range"},
        {{.quantity = Quantity::dc_resistance, .state = State::under_range, .limit = 0.1}, "under 100.0 mΩ"},
        {{.quantity = Quantity::dc_resistance, .state = State::unstable}, "wandering"},
        {{.quantity = Quantity::dc_resistance, .state = State::unstable, .value = 8e5, .spread = 3e5},
         "800.0 kΩ, wandering ± 300.0 kΩ"},
        {{.quantity = Quantity::polarity, .polarity = Polarity::as_expected}, "as expected"},
        {{.quantity = Quantity::polarity, .polarity = Polarity::reversed}, "reversed"},
        {{.quantity = Quantity::polarity, .polarity = Polarity::none}, "no kick"},
        {{.quantity = Quantity::magnet_pole, .polarity = Polarity::none}, "no magnet"},
        {{.quantity = Quantity::dc_voltage}, "no value"},
    };
    for (const auto& [reading, words] : examples)
        EXPECT_EQ(answer_in_words(reading), words);
}

TEST(PickupListPage, IsATable) {
    auto first = bridge();
    first.number = 9;
    auto second = neck();
    second.number = 12345;
    second.name = "Brücke, an overlong label with\nsomething on its second line";
    second.owner = "Somebody with a long name";
    const auto page = pickup_list_page({first, second});
    EXPECT_EQ(
        page,
        "  No.  Name                           Owner              Instrument             Type\n"
        "    9  Bridge, red guitar             A. Nonymous        red guitar, 6 strings  dual-coil-series\n"
        "12345  Brücke, an overlong label wit… Somebody with a l… red guitar, 6 strings  single-coil\n");
    expect_to_fit(page);
}

TEST(PickupPage, TellsWhatIsKnownAndWhatWas) {
    auto pickup = bridge();
    pickup.number = 1;
    EXPECT_EQ(pickup_page(pickup, {{id(70), at("2027-01-15T14:00:00Z"), "owner", "C. Nonymous"}},
                          {visit_of(pickup, 10, "2026-03-02T10:00:00Z"),
                           visit_of(pickup, 11, "2027-01-15T14:30:00Z")}),
              "Pickup 1: Bridge, red guitar\n"
              "  owner      A. Nonymous\n"
              "  instrument red guitar, 6 strings\n"
              "  type       dual-coil-series\n"
              "  coils      slug=six-slug-42 screw=six-screw-42\n"
              "  notes      weak since the house move\n"
              "  added      2026-03-02 09:00 UTC\n"
              "  visits     2, the last on 2027-01-15 14:30 UTC\n"
              "  changed    2027-01-15 14:00 UTC: owner was \"C. Nonymous\"\n");

    Pickup bare{.id = id(3), .number = 2, .added_at = at("2026-03-02T09:00:00Z"), .name = "Neck"};
    EXPECT_EQ(pickup_page(bare, {}, {}), "Pickup 2: Neck\n"
                                         "  added      2026-03-02 09:00 UTC\n"
                                         "  visits     none yet\n");
}

struct HistoryPage : ::testing::Test {
    testing::TemporaryFolder folder;
    History history{folder.path()};
    Pickup pickup = history.add_pickup(bridge());
};

TEST_F(HistoryPage, ShowsVisitsReadingsAndVerdicts) {
    const auto first = visit_of(pickup, 10, "2026-03-02T10:00:00Z");
    auto second = visit_of(pickup, 11, "2027-01-15T14:00:00Z");
    second.stage = "after rewinding";
    second.rewound = true;
    second.notes = "new wire on the screw coil";
    history.begin_visit(first);
    history.begin_visit(second);

    Reading inductance{.quantity = Quantity::inductance,
                       .circuit = Circuit::series,
                       .frequency_hz = 1000.0,
                       .value = 2.331,
                       .standard_uncertainty = 0.008,
                       .coil = "slug"};
    auto wrong = stored(first, 20, inductance);
    wrong.meter = "bench-lcr";
    inductance.coil = "screw";
    auto correction = stored(first, 21, inductance);
    correction.at = at("2026-03-09T08:00:00Z");
    correction.corrects = wrong.id;
    correction.remark = "it was the other coil";
    history.append_readings(std::vector{
        stored(first, 19, {.quantity = Quantity::temperature, .value = 21.4, .standard_uncertainty = 0.5}),
        wrong, correction, stored(second, 22, dc_resistance(4105.0, "screw"))});
    history.store_verdict(verdict(first, 30, "screw", false));
    auto sure = verdict(second, 31, "screw", true, false);
    sure.probability = 0.99996;
    history.store_verdict(sure);

    const auto page = history_page(history, pickup);
    EXPECT_EQ(
        page,
        "Pickup 1: Bridge, red guitar\n"
        "\n"
        "2026-03-02 10:00 UTC  as received\n"
        "  10:00:00            temperature                              21.4 ± 0.5 °C            by hand\n"
        "x 10:00:00   slug     series inductance at 1 kHz               2.331 ± 0.008 H          bench-lcr\n"
        "  2026-03-09 screw    series inductance at 1 kHz               2.331 ± 0.008 H          by hand\n"
        "                      it was the other coil\n"
        "  verdict    screw: shorted-turns, 97.3 %\n"
        "x corrected by a reading below it\n"
        "\n"
        "2027-01-15 14:00 UTC  after rewinding (rewound)\n"
        "  new wire on the screw coil\n"
        "  14:00:00   screw    DC resistance                            4.105 ± 0.009 kΩ         by hand\n"
        "  verdict    screw: healthy, > 99.9 %, not decided\n");
    expect_to_fit(page);
}

TEST_F(HistoryPage, FitsWhateverIsInIt) {
    auto visit = visit_of(pickup, 10, "2026-03-02T10:00:00Z");
    visit.stage = std::string(120, 's');
    visit.notes = std::string(120, 'n');
    history.begin_visit(visit);
    Reading reading{.quantity = Quantity::dissipation_factor,
                    .between = Between::finish_shield,
                    .circuit = Circuit::parallel,
                    .frequency_hz = 12345.6,
                    .state = State::unstable,
                    .value = 1.0e30,
                    .spread = 1.0e-30,
                    .coil = "the coil nearest to the bridge"};
    auto long_one = stored(visit, 20, reading);
    long_one.meter = "a-driver-with-a-very-long-name";
    long_one.remark = std::string(50, 'r') + "\n\t" + std::string(60, 'r');
    history.append_reading(long_one);
    auto long_verdict = verdict(visit, 30, std::string(60, 'c'), false);
    long_verdict.fault = std::string(60, 'f');
    history.store_verdict(long_verdict);
    expect_to_fit(history_page(history, pickup));
}

TEST_F(HistoryPage, SaysThatThereIsNothing) {
    EXPECT_EQ(history_page(history, pickup), "Pickup 1: Bridge, red guitar\n  no visits yet\n");
}

} // namespace
} // namespace coilward
