#include "capture_folder.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

#include <gtest/gtest.h>
#include <stdlib.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;

std::string documented(const std::string& name) {
    std::ifstream in(COILWARD_SOURCE_DIR "/docs/" + name);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// The fenced blocks that begin with this line.
std::vector<std::string> blocks(const std::string& page, const std::string& first_line) {
    std::vector<std::string> found;
    std::istringstream lines(page);
    std::string block;
    bool inside = false;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("```")) {
            if (inside && block.starts_with(first_line)) found.push_back(block);
            inside = !inside;
            block.clear();
        } else {
            block += line + "\n";
        }
    }
    return found;
}

TEST(DocumentedExamples, AreCapturesThatCanBeRead) {
    const auto examples = blocks(documented("captures.md"), "coilward capture 1");
    ASSERT_EQ(examples.size(), 1U);
    const Capture capture = capture_from_text(examples.front(), "docs/captures.md");
    EXPECT_EQ(all_received(capture), "+6.11200000E+03\r\n+9.9E37\r\n");
}

TEST(DocumentedExamples, AreDriversThatCanBeRead) {
    const auto examples = blocks(documented("drivers.md"), "id = ");
    ASSERT_EQ(examples.size(), 1U);
    std::string pattern = (fs::temp_directory_path() / "coilward-docs-XXXXXX").string();
    const fs::path folder = ::mkdtemp(pattern.data());
    std::ofstream(folder / "example-ohm.toml") << examples.front();
    const LoadedDrivers loaded = read_drivers(folder);
    fs::remove_all(folder);
    EXPECT_TRUE(loaded.complaints.empty()) << loaded.complaints.front().text();
    EXPECT_EQ(loaded.drivers.size(), 1U);
}

TEST(DocumentedExamples, ListEveryDriverThatShipsWithItsStatus) {
    const std::string page = documented("drivers.md");
    for (const Driver& driver : shipped_drivers()) {
        const std::size_t row = page.find("| `" + driver.id + "` |");
        ASSERT_NE(row, std::string::npos) << driver.id;
        const std::string line = page.substr(row, page.find('\n', row) - row);
        const std::array<const char*, 3> words{"draft", "checked", "proven"};
        EXPECT_NE(line.find(words[static_cast<std::size_t>(driver.status)]), std::string::npos) << line;
    }
}

TEST(DocumentedExamples, ListNoDriverThatDoesNotShip) {
    const std::string page = documented("drivers.md");
    const std::size_t from = page.find("## What ships");
    ASSERT_NE(from, std::string::npos);
    std::istringstream lines(page.substr(from, page.find("\n## ", from) - from));
    std::size_t rows = 0;
    for (std::string line; std::getline(lines, line);) {
        if (!line.starts_with("| `")) continue;
        ++rows;
        const std::string id = line.substr(3, line.find('`', 3) - 3);
        EXPECT_NE(driver_named(shipped_drivers(), id), nullptr) << id;
    }
    EXPECT_EQ(rows, shipped_drivers().size());
}

} // namespace
} // namespace coilward
