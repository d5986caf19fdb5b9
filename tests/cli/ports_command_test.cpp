#include "cli/program_run.h"
#include "meter/driver_folder.h"

#include <filesystem>

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using testing::Coilward;
using ::testing::HasSubstr;

TEST_F(Coilward, ListsEveryDriverWithItsStatusAndWhatIsNotKnown) {
    const auto end = coilward({"ports", "--meters", "--json"});
    EXPECT_EQ(end.exit_code, 0);
    EXPECT_EQ(end.err, "");
    const auto meters = nlohmann::json::parse(end.out)["meters"];
    const auto drivers = load_drivers(COILWARD_SOURCE_DIR "/drivers");
    ASSERT_EQ(meters.size(), drivers.size());
    for (std::size_t i = 0; i < drivers.size(); ++i) {
        EXPECT_EQ(meters[i]["driver"], drivers[i].id);
        EXPECT_EQ(meters[i]["status"], drivers[i].status == DriverStatus::draft     ? "draft"
                                       : drivers[i].status == DriverStatus::checked ? "checked"
                                                                                    : "proven");
        EXPECT_EQ(meters[i]["instruments"], drivers[i].instruments);
        EXPECT_EQ(meters[i]["gaps"], drivers[i].gaps);
    }
}

TEST_F(Coilward, ListsDriversForPeople) {
    const auto end = coilward({"ports", "--meters"});
    EXPECT_EQ(end.exit_code, 0);
    EXPECT_THAT(end.out,
                HasSubstr("dmm-ascii-line  checked\n"
                          "  Handheld multimeters that stream lines with the function's name\n"
                          "  documented for: TPI 190\n"
                          "  documented for: TPI 196\n"
                          "  not known: how it shows overload was not seen: such a line is refused\n"));
    EXPECT_THAT(end.out, HasSubstr("  sends what these read too: temp-line\n"));
}

TEST_F(Coilward, ListsOnlyPortsThatThereAre) {
    const auto end = coilward({"ports", "--json"});
    EXPECT_EQ(end.exit_code, 0) << end.err;
    const auto answer = nlohmann::json::parse(end.out);
    for (const auto& port : answer.at("ports")) {
        EXPECT_TRUE(std::filesystem::exists(port["port"].get<std::string>()) || port.contains("trouble"));
        EXPECT_NE(port["probably"], "");
    }
}

} // namespace
} // namespace coilward
