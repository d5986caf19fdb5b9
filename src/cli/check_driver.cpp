#include "bench/expected_readings.h"
#include "bench/play.h"
#include "cli/command.h"
#include "cli/reading_words.h"
#include "meter/driver_file.h"
#include "reading/examination_json.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;

struct CheckDriverWords {
    std::string file;
    std::vector<std::string> captures;
};

/// The driver of a file without fault. Throws BadInput after all complaints are printed.
Driver driver_of(const std::string& file) {
    std::vector<Complaint> complaints;
    auto driver = read_driver(fs::path(file), complaints);
    for (const Complaint& complaint : complaints)
        fmt::print("{}\n", complaint.text());
    std::fflush(stdout);
    if (!driver)
        throw BadInput(fmt::format("{}: {} to put right; see the list above", file, complaints.size()));
    return *driver;
}

Capture capture_of(const std::string& file) {
    try {
        return read_capture(file);
    } catch (const BadCapture& error) {
        throw BadInput(error.what());
    }
}

std::vector<Reading> expected_in(const fs::path& file) {
    try {
        return read_expected(file);
    } catch (const BadDocument& error) {
        throw BadInput(error.what());
    }
}

std::string nth(const std::vector<Reading>& readings, std::size_t index) {
    return index < readings.size() ? reading_to_json(readings[index]) : "nothing";
}

/// Says whether the readings are those that are expected; false where they are not.
bool print_match(const std::vector<Reading>& got, const fs::path& file) {
    if (!fs::exists(file)) {
        fmt::print("{}: no such file; write into it what the display showed, one reading a line\n",
                   file.string());
        return true;
    }
    const auto expected = expected_in(file);
    const auto [differs, wanted] = std::ranges::mismatch(got, expected, same_reading);
    if (differs == got.end() && wanted == expected.end()) {
        fmt::print("{}: all {} readings as expected\n", file.string(), expected.size());
        return true;
    }
    const auto index = static_cast<std::size_t>(differs - got.begin());
    fmt::print("{}:{}: expected {}\n  but the driver reads {}\n", file.string(), index + 1,
               nth(expected, index), nth(got, index));
    return false;
}

/// False where the expected readings are others.
bool check_capture(const Driver& driver, const std::string& file) {
    const Capture capture = capture_of(file);
    if (capture.driver != driver.id)
        fmt::print("{}: this capture names {}, not {}\n", file, capture.driver, driver.id);
    std::vector<Reading> readings;
    const WatchEnd end = play(driver, capture, [&](const StampedReading& stamped) {
        fmt::print("{}\n", reading_words(stamped));
        readings.push_back(stamped.reading);
    });
    fmt::print("{}: {} readings; {}\n", file, end.readings, counts_words(end));
    return print_match(readings, expected_file_of(file));
}

void run(const CheckDriverWords& words) {
    const Driver driver = driver_of(words.file);
    fmt::print("{}: nothing to complain of; {}, {}\n", words.file, driver.id, name(driver.status));
    std::size_t wrong = 0;
    for (const std::string& capture : words.captures)
        if (!check_capture(driver, capture)) ++wrong;
    std::fflush(stdout);
    if (wrong > 0)
        throw BadInput(
            fmt::format("{}: {} of {} captures give other readings than expected, shown above; put "
                        "the driver or the expected readings right",
                        words.file, wrong, words.captures.size()));
}

} // namespace

void add_check_driver_command(CLI::App& app, Session&) {
    auto words = std::make_shared<CheckDriverWords>();
    CLI::App* command =
        app.add_subcommand("check-driver", "Check a driver file, and what it reads from a capture");
    command->add_option("FILE", words->file, "The driver, as drivers/dmm-scpi.toml")->required();
    command
        ->add_option("--capture", words->captures,
                     "A capture to play; the readings that it must give stand beside it in "
                     "NAME.expected.jsonl")
        ->type_name("FILE")
        ->allow_extra_args(false);
    command->callback([words] { run(*words); });
    command->footer("Example:\n  coilward check-driver drivers/stx16.toml --capture "
                    "captures/stx16/steady.capture");
}

} // namespace coilward
