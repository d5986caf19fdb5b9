#include "capture_folder.h"
#include "damaged_stream.h"

#include <algorithm>
#include <iomanip>
#include <iostream>

namespace coilward {
namespace {

namespace fs = std::filesystem;

constexpr unsigned one_byte_in = 100;
constexpr unsigned seeds = 60;
constexpr std::size_t stream_length = 4000;

/// What damage a driver's frames can show, beside that of a digit into another digit, which none can.
enum class Shows {
    all,          ///< fixed widths: only two harms that make up for each other pass
    not_a_length, ///< a lost or won digit, or a lost prefix, leaves a whole frame
    nothing,      ///< any byte may stand anywhere
};

/// The number of digits is open, a name may be absent, or a unit without its first letter is one too.
bool has_open_lengths(const LineProtocol& line) {
    const auto& forms = line.numbers.forms;
    const bool is_open = forms.empty() || std::ranges::any_of(forms, [](const std::string& form) {
                             return form.find('#') != std::string::npos;
                         });
    const bool may_lose_prefix = std::ranges::any_of(line.units, [&](const auto& prefixed) {
        return prefixed.second.power != 0 && std::ranges::any_of(line.units, [&](const auto& other) {
                   return other.first == prefixed.first.substr(1) && prefixed.first != other.first;
               });
    });
    const bool may_lose_name =
        std::ranges::any_of(line.keys, [](const auto& named) { return named.first.empty(); });
    return is_open || may_lose_name || may_lose_prefix;
}

Shows shown_by(const Driver& driver) {
    if (driver.frame_check == FrameCheck::none) return Shows::nothing;
    const bool open = driver.line ? has_open_lengths(*driver.line) : driver.id == "lcr-main-colon";
    return open ? Shows::not_a_length : Shows::all;
}

/// The largest share of wrong readings, of frames, when one byte in a hundred is harmed. A frame of 17 to 45
/// bytes is harmed once in four.
double most_wrong(Shows shows) {
    return shows == Shows::all ? 2e-4 : 0.02;
}

/// Of the clean frames that the harmed one stands for, or stands beside where each is sent several times.
bool is_of_those(const Reading& reading, const std::vector<CleanFrame>& frames, std::size_t first,
                 std::size_t last, std::size_t beside) {
    return std::ranges::any_of(frames, [&](const CleanFrame& frame) {
        return frame.next + beside > first && frame.begin <= last + beside &&
               std::ranges::any_of(frame.readings,
                                   [&](const Reading& each) { return same_reading(each, reading); });
    });
}

bool is_harmed(const CleanFrame& frame, const DamagedStream& stream) {
    const auto begin = stream.harmed.begin();
    const auto end = begin + static_cast<std::ptrdiff_t>(frame.next);
    return std::find(begin + static_cast<std::ptrdiff_t>(frame.begin), end, true) != end;
}

/// Decodes the damaged stream and holds every reading against the clean frames that its bytes came from.
DamageScore score_of(const Driver& driver, const MeterSetting& setting, const std::vector<CleanFrame>& clean,
                     const DamagedStream& stream) {
    const auto repeats = static_cast<std::size_t>(driver.repeats);
    const std::size_t beside = (repeats - 1) * driver.longest_frame;
    Decoder decoder(driver, setting);
    decoder.begin_frame();
    DamageScore score{.frames = clean.size()};
    std::vector<bool> read(clean.size(), false);
    decoder.feed(stream.bytes, [&](const Frame& frame) {
        if (frame.verdict != Verdict::reading) return;
        const auto begin = static_cast<std::size_t>(frame.bytes.data() - stream.bytes.data());
        const std::size_t first = stream.origin[begin];
        const std::size_t last = stream.origin[begin + frame.bytes.size() - 1];
        if (!std::ranges::all_of(frame.readings, [&](const DecodedReading& each) {
                return is_of_those(each.reading, clean, first, last, beside);
            }))
            ++score.wrong;
        for (std::size_t i = 0; i < clean.size(); ++i)
            if (clean[i].begin + beside >= first && clean[i].begin <= last + beside) read[i] = true;
    });
    std::size_t whole_before = 0;
    for (std::size_t i = 0; i < clean.size(); ++i) {
        if (is_harmed(clean[i], stream)) {
            ++score.harmed;
            whole_before = 0;
            continue;
        }
        if (whole_before >= 2 * repeats && !read[i]) ++score.late;
        ++whole_before;
    }
    return score;
}

/// What the meter sends as readings: without its answers to questions about itself.
std::string stream_in(const Capture& capture, const Driver& driver) {
    std::string stream;
    bool asked = !driver.poll || driver.echoes_characters;
    for (const CaptureEvent& event : capture.events) {
        if (driver.poll && event.bytes == driver.poll->command + driver.command_end) asked = true;
        if (asked && event.kind == CaptureEvent::Kind::received) stream += event.bytes;
    }
    return stream;
}

MeterSetting setting_in(const Capture& capture, const Driver& driver) {
    const MeterSetup* setup = capture.request ? setup_for(driver, *capture.request) : nullptr;
    if (!setup) setup = &driver.setups.front();
    return setting_for(*setup, frequency_for(*setup, capture.request.value_or(MeasurementRequest{})));
}

/// Of all the driver's captures that are not cut themselves, each over and over.
DamageScore score_of(const Driver& driver, Damage damage) {
    DamageScore all;
    for (const fs::path& file : shipped_captures()) {
        if (owner_of(file) != driver.id || file.stem() == "cut-mid-frame") continue;
        const Capture capture = read_capture(file);
        const std::string once = stream_in(capture, driver);
        if (once.empty() || capture.starts_mid_frame) continue;
        std::string clean;
        while (clean.size() < stream_length)
            clean += once;
        const MeterSetting setting = setting_in(capture, driver);
        const auto frames = frames_of(driver, setting, clean);
        for (unsigned seed = 1; seed <= seeds; ++seed) {
            std::mt19937 random(seed);
            all += score_of(driver, setting, frames, damaged(clean, damage, one_byte_in, random));
        }
    }
    return all;
}

class EveryDamagedStream : public testing::TestWithParam<std::string> {
protected:
    const Driver& driver = shipped_driver(GetParam());

    void tell(const char* what, const DamageScore& score) const {
        std::cout << std::left << std::setw(16) << driver.id << what << score.frames << " frames, "
                  << score.harmed << " harmed, " << score.wrong << " wrong, " << score.late << " late\n";
    }
};

TEST_P(EveryDamagedStream, GivesNoReadingThatItsFrameCanShowToBeWrong) {
    const DamageScore score = score_of(driver, Damage::visible);
    tell("  bytes flipped, dropped, inserted: ", score);
    EXPECT_GT(score.harmed, 1000U);
    EXPECT_LE(static_cast<double>(score.wrong),
              most_wrong(shown_by(driver)) * static_cast<double>(score.frames));
}

/// "Two frames" are two measurements: some meters send each several times.
TEST_P(EveryDamagedStream, IsInStepWithinTwoFramesOfTheLastHarmedOne) {
    for (const Damage damage : {Damage::visible, Damage::swapped})
        EXPECT_EQ(score_of(driver, damage).late, 0U);
}

/// Measured apart, because no text without a checksum shows it: it is told how often it happens.
TEST_P(EveryDamagedStream, ReadsADigitThatBecameAnotherOneAsItStands) {
    const DamageScore score = score_of(driver, Damage::swapped);
    tell("  one bit of a byte, digits into digits: ", score);
    EXPECT_LE(score.wrong, score.harmed);
}

std::vector<std::string> ids_of_all_drivers() {
    std::vector<std::string> ids;
    for (const Driver& driver : shipped_drivers())
        ids.push_back(driver.id);
    return ids;
}

INSTANTIATE_TEST_SUITE_P(Shipped, EveryDamagedStream, testing::ValuesIn(ids_of_all_drivers()),
                         [](const auto& each) {
                             std::string text = each.param;
                             std::ranges::replace(text, '-', '_');
                             return text;
                         });

} // namespace
} // namespace coilward
