#include "meter/decoder.h"
#include "shipped_driver.h"
#include "toml/table_reader.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <ostream>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

/// Published replies of meters, each decoded alone: tests/meter/vectors/ID.toml holds those of the driver ID.
///
///     [[vector]]
///     text = "L=1.5000E-6,Q=2.18,NOBIN\r\n"           # or hex = "02 34 31"
///     set = "inductance series 1000"                  # how the meter is set; absent: its first setup
///     gives = ["inductance 1.5e-6 series 1000 Hz", "quality_factor 2.18 1000 Hz"]   # in SI units; [] for
///     nothing verdict = "not_live"                            # of the piece that gives nothing; may be
///     absent note = "held value"                             # what the person is told; may be absent source
///     = "manual, p. 19"
namespace coilward {
namespace {

namespace fs = std::filesystem;

struct Vector {
    std::string driver;
    int number = 0;
    std::string bytes;
    std::string set;
    std::vector<std::string> gives;
    std::string verdict;
    std::string note;
};

void PrintTo(const Vector& vector, std::ostream* out) {
    *out << vector.driver << " vector " << vector.number << ": " << testing::PrintToString(vector.bytes);
}

std::string bytes_of_hex(const std::string& text) {
    std::istringstream words(text);
    std::string bytes;
    for (std::string word; words >> word;)
        bytes += static_cast<char>(std::stoi(word, nullptr, 16));
    return bytes;
}

/// As a vector's `gives` says it: the quantity, its number or state, the circuit, the frequency.
std::string in_words(const Reading& reading) {
    std::ostringstream words;
    words.precision(12);
    words << name(reading.quantity) << ' ';
    if (reading.value)
        words << *reading.value;
    else
        words << name(reading.state);
    if (reading.circuit) words << ' ' << name(*reading.circuit);
    if (reading.frequency_hz) words << ' ' << *reading.frequency_hz << " Hz";
    return words.str();
}

/// The number in "inductance 1.5e-6 series 1000 Hz" as in_words() writes it, so that any spelling will do.
std::string in_one_spelling(const std::string& text) {
    std::istringstream words(text);
    std::ostringstream all;
    all.precision(12);
    for (std::string word; words >> word;) {
        std::istringstream number(word);
        double value = 0.0;
        if (all.tellp() > 0) all << ' ';
        if (number >> value && number.eof())
            all << value;
        else
            all << word;
    }
    return all.str();
}

std::vector<Vector> vectors_in(const fs::path& file) {
    std::vector<Complaint> complaints;
    std::vector<Vector> vectors;
    const auto source = read_toml(file, complaints);
    if (source) {
        TableReader reader(*source, complaints);
        for (TableReader& row : reader.tables("vector", Need::required)) {
            Vector vector{.driver = file.stem().string(), .number = static_cast<int>(vectors.size()) + 1};
            vector.bytes = row.has("hex") ? bytes_of_hex(row.text("hex", Need::required).value_or(""))
                                          : row.text("text", Need::required).value_or("");
            vector.set = row.text("set", Need::optional).value_or("");
            vector.gives = row.texts("gives", Need::optional);
            vector.verdict = row.text("verdict", Need::optional).value_or("");
            vector.note = row.text("note", Need::optional).value_or("");
            row.text("source", Need::required);
            row.refuse_unknown_keys();
            vectors.push_back(vector);
        }
        reader.refuse_unknown_keys();
    }
    if (!complaints.empty()) throw std::runtime_error(complaints.front().text());
    return vectors;
}

std::vector<Vector> all_vectors() {
    std::vector<fs::path> files;
    for (const auto& each : fs::directory_iterator(COILWARD_SOURCE_DIR "/tests/meter/vectors"))
        if (each.path().extension() == ".toml") files.push_back(each.path());
    std::ranges::sort(files);
    std::vector<Vector> vectors;
    for (const fs::path& file : files)
        for (Vector& vector : vectors_in(file))
            vectors.push_back(std::move(vector));
    return vectors;
}

class EveryVector : public testing::TestWithParam<Vector> {};

TEST_P(EveryVector, GivesWhatItsManualSays) {
    const Vector& vector = GetParam();
    const Driver& driver = shipped_driver(vector.driver);
    Decoder decoder(driver, vector.set.empty() ? setting_for(driver.setups.front(), {})
                                               : setting_of(driver, vector.set));
    decoder.begin_frame();
    std::vector<std::string> got;
    std::vector<std::string> notes;
    std::vector<std::string> verdicts;
    decoder.feed(vector.bytes, [&](const Frame& frame) {
        if (!frame.note.empty()) notes.push_back(frame.note);
        verdicts.emplace_back(name(frame.verdict));
        for (const DecodedReading& each : frame.readings)
            got.push_back(in_words(each.reading));
    });
    std::vector<std::string> wanted;
    for (const std::string& text : vector.gives)
        wanted.push_back(in_one_spelling(text));
    EXPECT_EQ(got, wanted);
    if (!vector.note.empty()) {
        EXPECT_EQ(notes, std::vector<std::string>{vector.note});
    }
    if (!vector.verdict.empty()) {
        EXPECT_NE(std::ranges::find(verdicts, vector.verdict), verdicts.end()) << vector.verdict;
    }
}

INSTANTIATE_TEST_SUITE_P(Published, EveryVector, testing::ValuesIn(all_vectors()), [](const auto& each) {
    std::string text = each.param.driver + "_" + std::to_string(each.param.number);
    std::ranges::replace(text, '-', '_');
    return text;
});

} // namespace
} // namespace coilward
