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

} // namespace
} // namespace coilward
