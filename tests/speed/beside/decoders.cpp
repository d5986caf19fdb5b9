// Every driver's decoder on a megabyte of its meter's bytes, beside a plain search for the ends of lines in
// them.

#include "beside/cpu_time.h"
#include "beside/row.h"
#include "meter/driver_folder.h"
#include "steady_stream.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {
namespace {

/// As anyone would write it.
std::size_t line_ends_in(std::string_view bytes) {
    return static_cast<std::size_t>(std::ranges::count(bytes, '\n'));
}

} // namespace

std::vector<Row> rows_of_decoders() {
    std::vector<Row> rows;
    for (const Driver& driver : load_drivers(COILWARD_SOURCE_DIR "/drivers")) {
        const std::string stream = steady_stream(driver);
        std::size_t readings = 0;
        std::size_t ends = 0;
        const auto [ours, theirs] = least_beside(timed([&] { readings = readings_in(driver, stream); }),
                                                 timed([&] { ends = line_ends_in(stream); }));
        rows.push_back(
            {.work = fmt::format("decoding 1 MB, {}", driver.id),
             .beside = "a newline scan of the same bytes",
             .our_seconds = ours,
             .their_seconds = theirs,
             .least_ratio = 0.1,
             .agreement = fmt::format("{:.0f} MB/s, {} readings, {} line ends",
                                      1e-6 * static_cast<double>(stream.size()) / ours, readings, ends)});
    }
    return rows;
}

} // namespace coilward
