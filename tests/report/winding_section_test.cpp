#include "report/winding_section.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// Half at the finish lead, the rest over the two outermost parts.
PlaceInWinding outside() {
    PlaceInWinding place;
    place.at_finish = 0.5;
    place.parts[18] = 0.1;
    place.parts[19] = 0.4;
    place.mendable_outside = 0.7;
    return place;
}

std::size_t count(const std::string& text, const std::string& piece) {
    std::size_t found = 0;
    for (std::size_t at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1))
        ++found;
    return found;
}

TEST(WindingSection, ShadesBothSidesFromTheCoreOutwards) {
    EXPECT_EQ(winding_section(outside()), "      ┌────────────────────┬────────┬────────────────────┐\n"
                                          "      │█░                  │  core  │                  ░█│\n"
                                          "    ● │█░                  │  core  │                  ░█│ ●\n"
                                          "      └────────────────────┴────────┴────────────────────┘\n"
                                          "    finish                 ○ start                 finish\n");
}

TEST(WindingSection, DrawsEachPartOnceASide) {
    const std::string picture = winding_section_svg(outside(), 10.0, 20.0);
    EXPECT_EQ(count(picture, "<rect"), 2 * 20 + 1 + 2); // the parts, the core, an outline for each side
    EXPECT_EQ(count(picture, "<circle"), 4u);
    EXPECT_EQ(count(picture, "fill-opacity=\"0.80\""), 2u); // 0.4 beside 0.5, left and right
    EXPECT_EQ(count(picture, "fill-opacity=\"1.00\""), 2u); // the finish lead
}

TEST(WindingSection, SaysWhetherTheCoilIsMendedFromOutside) {
    EXPECT_EQ(place_in_words(outside()), "at the start lead < 1 %, at the finish lead 50 %; mended from "
                                         "outside, without a rewind: 70 %");
}

} // namespace
} // namespace coilward
