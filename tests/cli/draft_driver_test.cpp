#include "cli/program_run.h"
#include "meter/driver_folder.h"

#include <gmock/gmock.h>

namespace coilward {
namespace {

using testing::Coilward;
using ::testing::HasSubstr;
using testing::replay;

/// Whoever reads a meter by a driver with gaps is told so, with documents for programs too.
TEST_F(Coilward, SaysOfEveryDraftDriverThatItIsOne) {
    for (const Driver& driver : load_drivers(COILWARD_SOURCE_DIR "/drivers")) {
        const auto end = coilward({"watch", "--meter", driver.id, "--port",
                                   replay(driver.id + "/steady.capture"), "--count", "1", "--json"});
        EXPECT_EQ(end.exit_code, 0) << driver.id << ": " << end.err;
        const std::string warning =
            "coilward: " + driver.id +
            " is a draft: compare its readings with the meter's display (coilward ports --meters says what "
            "is not known)\n";
        EXPECT_EQ(end.err.find(warning) != std::string::npos, driver.status == DriverStatus::draft)
            << end.err;
    }
}

} // namespace
} // namespace coilward
