#include "report/sample_diagnosis.h"
#include "report/text_block.h"
#include "report/verdict_page.h"
#include "report/verdict_picture.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing::sample_diagnosis;
using testing::sample_rules;

TEST(VerdictPage, SaysEverything) {
    EXPECT_EQ(
        verdict_page(sample_diagnosis(), sample_rules()),
        "Verdict: Some turns are shorted, 97 %\n"
        "  shorted fraction: 3.1 % (90 %: 2.4 % to 4 %)\n"
        "\n"
        "Read, on what healthy coils of this model measure at this temperature\n"
        "  DC resistance               5.930 kΩ       ├─═●───────┤      5.72 to 6.63 kΩ    within\n"
        "  series inductance at 1 kHz  1.900 H   ═●   ├──────────┤      2.10 to 2.60 H     below\n"
        "\n"
        "How likely\n"
        "  Some turns are shorted                       97 %   ██████████████████████████████████████▊\n"
        "  A sound coil                                 3 %    █▏\n"
        "\n"
        "Why\n"
        "  - series inductance at 1 kHz, read 1.900 H: too low (+14 dB)\n"
        "\n"
        "What to do\n"
        "  - Rewind.\n"
        "\n"
        "Cautions\n"
        "  - Unplug the amplifier.\n"
        "\n"
        "Notes\n"
        "  - no temperature was read\n");
}

TEST(VerdictPage, SaysWhatToMeasureNextWhileItIsNotDecided) {
    Diagnosis d = sample_diagnosis();
    d.decided = false;
    const std::string page = verdict_page(d, sample_rules());
    EXPECT_THAT(page, HasSubstr("Not decided; most likely: Some turns are shorted, 97 %\n"));
    EXPECT_THAT(page, HasSubstr("\nMeasure next\n"
                                "  - polarity (0.41 bits in 30 s): Touch a pole.\n"
                                "  - inductance at 120 Hz (0.20 bits in 15 s): Set the meter.\n"));
}

TEST(ProgressLine, SaysWhatIsKnownAndWhatComesNext) {
    Diagnosis d = sample_diagnosis();
    EXPECT_EQ(progress_line(d, sample_rules(), ""), "Some turns are shorted 97 %, decided");
    d.decided = false;
    d.verdict.probability = 0.998;
    EXPECT_EQ(progress_line(d, sample_rules(), "polarity"), "Some turns are shorted > 99 %; next: polarity");
}

TEST(TextBlock, BreaksAtTheWidthOfThePage) {
    const std::string word(60, 'x');
    EXPECT_EQ(wrapped(word + " " + word, "  - "), "  - " + word + "\n    " + word + "\n");
    EXPECT_EQ(columns("6.1 kΩ"), 6U);
    EXPECT_EQ(padded("Ω", 3), "Ω  ");
}

TEST(VerdictPicture, ShowsTitlesReadingsAndBars) {
    const std::string picture = verdict_picture(sample_diagnosis(), sample_rules());
    EXPECT_THAT(picture, ::testing::StartsWith("<svg xmlns=\"http://www.w3.org/2000/svg\""));
    EXPECT_THAT(picture, ::testing::EndsWith("</svg>\n"));
    for (const char* words :
         {"Verdict: Some turns are shorted, 97 %", "5.930 kΩ", "2.10 to 2.60 H", "A sound coil"})
        EXPECT_THAT(picture, HasSubstr(words));
    EXPECT_THAT(picture, Not(HasSubstr(">open<"))) << "too improbable to be shown";
    Rules rules = sample_rules();
    rules.faults[0].title = "R < 1 & falling";
    EXPECT_THAT(verdict_picture(sample_diagnosis(), rules), HasSubstr("R &lt; 1 &amp; falling"));
}

TEST(VerdictPage, CountsInTurnsAndSaysThePolarity) {
    Diagnosis d = sample_diagnosis();
    d.in_turns.shorted = Counted{243.0, 187.0, 318.0};
    d.in_turns.shorted_layers = Counted{1.44, 1.1, 1.9};
    d.in_turns.from_start = Counted{2372.0, 2240.0, 2510.0};
    d.in_turns.from_finish = Counted{84.0, 61.0, 98.4};
    d.polarity = PolarityFinding{.says = "the magnet is turned", .partner = "it wants another"};
    const std::string page = verdict_page(d, sample_rules());
    EXPECT_THAT(page,
                HasSubstr("  shorted: about 240 turns (90 %: 190 to 320), 1.4 layers wound turn beside turn\n"
                          "  about 2400 turns (90 %: 2200 to 2500) from the start lead, 84 turns (90 %: 61 "
                          "to 98) from the\n"
                          "  finish lead\n"));
    EXPECT_THAT(page, HasSubstr("\nPolarity\n  the magnet is turned\n  it wants another\n"));
    const std::string picture = verdict_picture(d, sample_rules());
    for (const char* words : {"shorted: about 240 turns", "about 2400 turns", "the magnet is turned"})
        EXPECT_THAT(picture, HasSubstr(words));
}

TEST(VerdictPicture, OfAPickupShowsBothCoilsAndTheWhole) {
    PickupDiagnosis pickup;
    pickup.pickup_type = "a-pair";
    pickup.coils = {{"one", sample_diagnosis()}, {"other", sample_diagnosis()}};
    pickup.coils[1].second.place = PlaceInWinding{.at_start = 1.0};
    pickup.whole.faults = {{"torn", 0.98, {}}};
    pickup.whole.verdict = pickup.verdict = pickup.whole.faults.front();
    pickup.whole.decided = pickup.decided = true;
    pickup.verdict_coil = "whole";
    Rules rules = sample_rules();
    rules.pickup_types.push_back(
        {.id = "a-pair", .joint_faults = {{.id = "torn", .title = "The joint is torn"}}});
    const std::string picture = verdict_picture(pickup, rules);
    for (const char* words :
         {"a-pair (whole): The joint is torn 98 %", "one (six-rod-42): Verdict: Some turns",
          "other (six-rod-42): Verdict: Some turns", "the whole: Verdict: The joint is torn",
          "at the start lead"})
        EXPECT_THAT(picture, HasSubstr(words));
    std::size_t cores = 0;
    for (auto at = picture.find(">core<"); at != std::string::npos; at = picture.find(">core<", at + 1))
        ++cores;
    EXPECT_EQ(cores, 2U) << "each coil has its section";
}

} // namespace
} // namespace coilward
