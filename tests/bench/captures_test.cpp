#include "bench/meter_session.h"
#include "bench/replay_transport.h"
#include "capture_folder.h"

#include <random>
#include <set>

namespace coilward {
namespace {

using std::chrono::milliseconds;
namespace fs = std::filesystem;

/// Plays a capture through a whole session, as `coilward watch --port replay:FILE` does.
std::vector<Reading> replayed(const Driver& driver, const Capture& capture, Chunking chunking) {
    const auto clock = std::make_shared<ReplayClock>(capture.began);
    MeterSession session(driver,
                         {.transport = std::make_unique<ReplayTransport>(capture, clock, std::move(chunking)),
                          .clock = clock,
                          .recorded_request = capture.request});
    if (capture.request)
        session.prepare(*capture.request);
    else
        session.prepare_as_it_is();
    std::vector<Reading> readings;
    for (int silences = 0; silences < 3;) {
        const SessionEvent event = session.next(milliseconds(20'000));
        if (std::holds_alternative<LinkOver>(event)) break;
        if (std::holds_alternative<Silence>(event)) ++silences;
        if (const auto* stamped = std::get_if<StampedReading>(&event)) readings.push_back(stamped->reading);
    }
    return readings;
}

/// Every setting in which the driver may find its meter.
std::vector<MeterSetting> settings_of(const Driver& driver) {
    std::vector<MeterSetting> settings;
    for (const MeterSetup& setup : driver.setups)
        settings.push_back(setting_for(setup, frequency_for(setup, {})));
    return settings;
}

std::vector<Reading> decoded(const Driver& driver, const MeterSetting& setting, std::string_view bytes) {
    Decoder decoder(driver, setting);
    decoder.begin_frame();
    std::vector<Reading> readings;
    decoder.feed(bytes, [&](const Frame& frame) {
        for (const DecodedReading& each : frame.readings)
            readings.push_back(each.reading);
    });
    return readings;
}

/// What the meter sent as readings: without its answers to questions about itself, which are numbers too.
std::string stream_of(const Capture& capture) {
    const Driver* owner = driver_named(shipped_drivers(), capture.driver);
    if (!owner || !owner->poll) return all_received(capture);
    const std::string poll = owner->poll->command + owner->command_end;
    const auto is_poll = [&](const CaptureEvent& event) { return event.bytes == poll; };
    Capture rest = capture;
    rest.events.erase(rest.events.begin(), std::ranges::find_if(rest.events, is_poll));
    return all_received(rest);
}

bool is_declared_family(const Driver& driver, const std::string& owner) {
    return std::ranges::find(driver.same_wire, owner) != driver.same_wire.end();
}

/// The bytes of each frame that holds a reading.
std::vector<std::string> reading_frames(const Driver& driver, const MeterSetting& setting,
                                        std::string_view bytes) {
    Decoder decoder(driver, setting);
    decoder.begin_frame();
    std::vector<std::string> frames;
    decoder.feed(bytes, [&](const Frame& frame) {
        if (frame.verdict == Verdict::reading) frames.emplace_back(frame.bytes);
    });
    return frames;
}

class EveryCapture : public testing::TestWithParam<fs::path> {
protected:
    Capture capture = read_capture(GetParam());
};

/// Those that some driver reads.
class EveryMetersCapture : public EveryCapture {
protected:
    const Driver& driver = shipped_driver(capture.driver);
};

TEST_P(EveryCapture, BelongsToItsFolder) {
    EXPECT_EQ(capture.driver, owner_of(GetParam()));
}

TEST_P(EveryCapture, IsReadBackFromItsOwnText) {
    const Capture again = capture_from_text(to_text(capture), "again");
    EXPECT_EQ(to_text(again), to_text(capture));
    EXPECT_EQ(all_received(again), all_received(capture));
}

TEST_P(EveryMetersCapture, GivesItsReadingsHoweverItIsCut) {
    const auto wanted = expected_readings(GetParam());
    ASSERT_TRUE(fs::exists(expected_file_of(GetParam())));
    EXPECT_TRUE(same_readings(replayed(driver, capture, {}), wanted)) << "whole";
    EXPECT_TRUE(same_readings(replayed(driver, capture, [](std::size_t) { return 1; }), wanted))
        << "byte by byte";
    for (unsigned seed = 1; seed <= 20; ++seed) {
        std::mt19937 random(seed);
        const auto piece = [&](std::size_t waiting) {
            return std::uniform_int_distribution<std::size_t>(1, waiting)(random);
        };
        EXPECT_TRUE(same_readings(replayed(driver, capture, piece), wanted)) << "pieces of seed " << seed;
    }
}

TEST_P(EveryCapture, IsClaimedByNobodyElse) {
    const std::string stream = stream_of(capture);
    for (const Driver& driver : shipped_drivers()) {
        if (driver.id == capture.driver || is_declared_family(driver, capture.driver)) continue;
        for (const MeterSetting& setting : settings_of(driver))
            EXPECT_TRUE(same_readings(decoded(driver, setting, stream), {})) << driver.id;
    }
}

/// A damaged byte with its top bit set can stand in no frame of these protocols, so that no damaged frame may
/// give a number that the clean stream does not. A binary frame without a check cannot promise it.
TEST_P(EveryMetersCapture, GivesNoNewNumberFromBytesThatItsProtocolDoesNotHave) {
    if (driver.frame_check == FrameCheck::none) return;
    const std::string clean = all_received(capture);
    for (const MeterSetting& setting : settings_of(driver)) {
        const auto allowed = decoded(driver, setting, clean);
        for (std::size_t at = 0; at < clean.size(); ++at) {
            std::string damaged = clean;
            damaged[at] = static_cast<char>(damaged[at] | 0x80);
            for (const Reading& reading : decoded(driver, setting, damaged))
                EXPECT_TRUE(std::ranges::any_of(
                    allowed, [&](const Reading& each) { return same_reading(reading, each); }))
                    << "byte " << at << ": " << reading_to_json(reading);
        }
    }
}

/// Whatever is lost or flipped: no crash, and what is read stays a number of one of the quantities that the
/// driver knows.
TEST_P(EveryCapture, SurvivesDamage) {
    const std::string clean = all_received(capture);
    std::mt19937 random(20260302);
    for (const Driver& driver : shipped_drivers()) {
        const auto settings = settings_of(driver);
        for (int turn = 0; turn < 200; ++turn) {
            std::string damaged = clean;
            for (int flips = 0; flips < 4; ++flips)
                damaged[random() % damaged.size()] ^= static_cast<char>(1U << (random() % 8));
            damaged.erase(random() % damaged.size(), random() % 24);
            for (const Reading& reading : decoded(driver, settings[random() % settings.size()], damaged)) {
                EXPECT_TRUE(reading.value.has_value() == (reading.state == State::ok));
                EXPECT_TRUE(!reading.value || std::isfinite(*reading.value));
            }
        }
    }
}

/// Whatever came before: of a clean stream at most two frames are lost.
TEST_P(EveryMetersCapture, IsInStepWithinTwoFramesAfterNoise) {
    const std::string clean = all_received(capture);
    std::mt19937 random(4);
    for (const MeterSetting& setting : settings_of(driver)) {
        const auto wanted = reading_frames(driver, setting, clean);
        for (int turn = 0; turn < 50; ++turn) {
            std::string noise(1 + random() % driver.longest_frame, '\0');
            for (char& byte : noise)
                byte = static_cast<char>(random());
            const auto got = reading_frames(driver, setting, noise + clean);
            const std::size_t lost =
                std::min<std::size_t>(wanted.size(), 2U * static_cast<unsigned>(driver.repeats));
            ASSERT_GE(got.size() + lost, wanted.size());
            EXPECT_TRUE(
                std::equal(wanted.rbegin(), wanted.rend() - static_cast<std::ptrdiff_t>(lost), got.rbegin()));
        }
    }
}

std::vector<fs::path> meters_captures() {
    auto files = shipped_captures();
    std::erase_if(files, [](const fs::path& file) { return owner_of(file) == "nobody"; });
    return files;
}

INSTANTIATE_TEST_SUITE_P(Shipped, EveryCapture, testing::ValuesIn(shipped_captures()),
                         [](const auto& each) { return test_name(each.param); });

INSTANTIATE_TEST_SUITE_P(Shipped, EveryMetersCapture, testing::ValuesIn(meters_captures()),
                         [](const auto& each) { return test_name(each.param); });

class EveryDriver : public testing::TestWithParam<fs::path> {};

TEST_P(EveryDriver, HasTheFiveCapturesThatProveIt) {
    const fs::path folder = fs::path(COILWARD_SOURCE_DIR "/captures") / GetParam().stem();
    for (const char* scene : {"steady", "over-range", "lead-off", "range-change", "cut-mid-frame"}) {
        EXPECT_TRUE(fs::exists(folder / (std::string(scene) + ".capture"))) << scene;
        EXPECT_TRUE(fs::exists(folder / (std::string(scene) + ".expected.jsonl"))) << scene;
    }
}

TEST_P(EveryDriver, IsCalledProvenOnlyByWhatADisplayShowed) {
    const Driver& driver = shipped_driver(GetParam().stem().string());
    std::size_t with_display = 0;
    for (const fs::path& file : shipped_captures())
        if (owner_of(file) == driver.id) with_display += read_capture(file).also.count("display");
    EXPECT_TRUE(driver.status != DriverStatus::proven || with_display > 0);
}

std::vector<fs::path> driver_files() {
    std::vector<fs::path> files;
    for (const auto& each : fs::directory_iterator(COILWARD_SOURCE_DIR "/drivers"))
        if (each.path().extension() == ".toml") files.push_back(each.path());
    std::ranges::sort(files);
    return files;
}

INSTANTIATE_TEST_SUITE_P(Shipped, EveryDriver, testing::ValuesIn(driver_files()), [](const auto& each) {
    std::string text = each.param.stem().string();
    std::ranges::replace(text, '-', '_');
    return text;
});

TEST(Captures, HaveNoFolderWithoutADriver) {
    std::set<std::string> owners;
    for (const fs::path& file : shipped_captures())
        owners.insert(owner_of(file));
    owners.erase("nobody");
    for (const std::string& owner : owners)
        EXPECT_NE(driver_named(shipped_drivers(), owner), nullptr) << owner;
}

TEST(Captures, HaveNoExpectationWithoutACapture) {
    for (const auto& each : fs::recursive_directory_iterator(COILWARD_SOURCE_DIR "/captures")) {
        if (each.path().extension() != ".jsonl") continue;
        const fs::path capture =
            each.path().parent_path() / (each.path().stem().stem().string() + ".capture");
        EXPECT_TRUE(fs::exists(capture)) << each.path();
    }
}

} // namespace
} // namespace coilward
