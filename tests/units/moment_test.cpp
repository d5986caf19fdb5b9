#include "units/moment.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct Example {
    const char* text;
    const char* utc;
};

TEST(Moment, ReadsTheExamplesOfTheStandard) {
    // RFC 3339, section 5.8, and what it says each of them equals. A leap second has no place of its own on
    // the system's clock and is the next minute's first.
    const Example examples[] = {
        {"1985-04-12T23:20:50.52Z", "1985-04-12T23:20:50.520Z"},
        {"1996-12-19T16:39:57-08:00", "1996-12-20T00:39:57.000Z"},
        {"1990-12-31T23:59:60Z", "1991-01-01T00:00:00.000Z"},
        {"1990-12-31T15:59:60-08:00", "1991-01-01T00:00:00.000Z"},
        {"1937-01-01T12:00:27.87+00:20", "1937-01-01T11:40:27.870Z"},
        {"1985-04-12t23:20:50.52z", "1985-04-12T23:20:50.520Z"}, // section 5.6: T and Z may be lower case
        {"1985-04-12 23:20:50.5239Z", "1985-04-12T23:20:50.523Z"},
    };
    for (const auto& [text, utc] : examples) {
        const auto moment = moment_from_text(text);
        ASSERT_TRUE(moment) << text;
        EXPECT_EQ(text_of(*moment), utc) << text;
    }
}

TEST(Moment, CountsFromTheEpoch) {
    // Unix time, POSIX.1 section 4.16: 1 000 000 000 s fell on 2001-09-09T01:46:40Z, and 0 on the epoch
    // itself.
    EXPECT_EQ(moment_from_text("2001-09-09T01:46:40Z"), Moment{std::chrono::seconds{1'000'000'000}});
    EXPECT_EQ(text_of(Moment{}), "1970-01-01T00:00:00.000Z");
    EXPECT_EQ(text_of(Moment{std::chrono::milliseconds{-1}}), "1969-12-31T23:59:59.999Z");
}

TEST(Moment, RefusesWhatIsNoTime) {
    for (const char* text :
         {"", "2026", "2026-03-02", "2026-03-02T10:00:00", "2026-03-02T10:00Z", "2026-13-02T10:00:00Z",
          "2026-02-29T10:00:00Z", "2026-03-02T24:00:00Z", "2026-03-02T10:60:00Z", "2026-03-02T10:00:61Z",
          "2026-03-02T10:00:00.Z", "2026-03-02T10:00:00+1:00", "2026-03-02T10:00:00Z ",
          " 2026-03-02T10:00:00Z", "26-03-02T10:00:00Z", "2026/03/02T10:00:00Z", "2026-03-02T10:00:00+25:00",
          "2026-3-2T10:00:00Z"})
        EXPECT_FALSE(moment_from_text(text)) << text;
}

} // namespace
} // namespace coilward
