#pragma once

#include "history/child_process.h"
#include "history/temporary_folder.h"

#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace coilward::testing {

/// The built program with the shipped rules and drivers, on a history of its own.
struct Coilward : ::testing::Test {
    TemporaryFolder folder;

    ProgramEnd coilward(std::vector<std::string> words) const {
        words.insert(words.end(), {"--data", folder.path(), "--rules", COILWARD_SOURCE_DIR "/rules",
                                   "--drivers", COILWARD_SOURCE_DIR "/drivers"});
        return run_program(COILWARD_PROGRAM, std::move(words));
    }

    /// A coil of six-rod-42 by that name.
    void add_pickup(const std::string& name) const {
        ASSERT_EQ(coilward({"pickup", "add", "--name", name, "--model", "six-rod-42"}).exit_code, 0);
    }
};

inline std::string replay(const std::string& capture) {
    return "replay:" COILWARD_SOURCE_DIR "/captures/" + capture;
}

} // namespace coilward::testing
