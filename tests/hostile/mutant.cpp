#include "hostile/mutant.h"

#include "sanitize/slowed_down.h"
#include "toml/utf8.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <sstream>

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace coilward::testing {
namespace {

/// A stretch of a text.
struct Stretch {
    std::size_t at = 0;
    std::size_t length = 0;
};

/// The same numbers on every machine, which the standard's distributions do not promise.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : engine_(seed) {}

    std::size_t below(std::size_t end) { return end == 0 ? 0 : static_cast<std::size_t>(engine_() % end); }

    template <typename List>
    const auto& of(const List& list) {
        return *std::next(std::begin(list), static_cast<std::ptrdiff_t>(below(std::size(list))));
    }

private:
    std::mt19937_64 engine_;
};

bool is_word(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) || c == '_';
}

bool is_digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c));
}

/// Whatever looks like a number of its own.
std::vector<Stretch> numbers_in(std::string_view text) {
    std::vector<Stretch> found;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (!is_digit(text[i]) || (i > 0 && is_word(text[i - 1]))) continue;
        const std::size_t at = i > 0 && (text[i - 1] == '-' || text[i - 1] == '+') ? i - 1 : i;
        while (i < text.size() && (is_word(text[i]) || text[i] == '.' ||
                                   ((text[i] == '-' || text[i] == '+') && (text[i - 1] | 32) == 'e')))
            ++i;
        found.push_back({at, i - at});
    }
    return found;
}

/// What stands in quotation marks on one line, with them.
std::vector<Stretch> quoted_in(std::string_view text) {
    std::vector<Stretch> found;
    for (std::size_t i = text.find('"'); i != text.npos; i = text.find('"', i + 1)) {
        const std::size_t end = text.find_first_of("\"\n", i + 1);
        if (end == text.npos) break;
        if (text[end] == '"') found.push_back({i, end + 1 - i});
        i = end;
    }
    return found;
}

/// Words before a colon or an equals sign, and the first words of lines.
std::vector<Stretch> keys_in(std::string_view text) {
    std::vector<Stretch> found;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (!is_word(text[i]) || is_digit(text[i])) continue;
        const std::size_t at = i;
        while (i < text.size() && is_word(text[i]))
            ++i;
        const std::size_t next = text.find_first_not_of("\" ", i);
        const bool begins_line = at == 0 || text[at - 1] == '\n' || text[at - 1] == ',';
        if (begins_line || (next != text.npos && (text[next] == ':' || text[next] == '=')))
            found.push_back({at, i - at});
    }
    return found;
}

std::string excerpt(std::string_view text) {
    return printable(text.size() > 40 ? fmt::format("{}…", text.substr(0, 40)) : std::string(text));
}

void put(std::string& text, Stretch stretch, std::string_view other, std::string& story) {
    story += fmt::format("at {}: \"{}\" becomes \"{}\"; ", stretch.at,
                         excerpt(text.substr(stretch.at, stretch.length)), excerpt(other));
    text.replace(stretch.at, stretch.length, other);
}

Stretch any_stretch(const std::string& text, Dice& dice, std::size_t longest) {
    const std::size_t at = dice.below(text.size());
    return {at, std::min(text.size() - at, 1 + dice.below(longest))};
}

Stretch line_at(const std::string& text, std::size_t place) {
    const std::size_t before = place == 0 ? text.npos : text.rfind('\n', place - 1);
    const std::size_t at = before == text.npos ? 0 : before + 1;
    const std::size_t end = text.find('\n', place);
    return {at, (end == text.npos ? text.size() : end + 1) - at};
}

constexpr const char* one_seed = "COILWARD_HOSTILE_SEED";
constexpr const char* other_seeds = "COILWARD_HOSTILE_SHIFT";
constexpr std::size_t longest_refusal = 700; ///< bytes

using Harm = void (*)(std::string& text, Dice&, std::string& story);

void flip_bytes(std::string& text, Dice& dice, std::string& story) {
    for (std::size_t many = 1 + dice.below(4); many > 0; --many) {
        const std::size_t at = dice.below(text.size());
        const char byte = dice.below(2) == 0 ? static_cast<char>(dice.below(256))
                                             : static_cast<char>(text[at] ^ (1 << dice.below(8)));
        put(text, {at, 1}, std::string(1, byte), story);
    }
}

void cut(std::string& text, Dice& dice, std::string& story) {
    const std::size_t at = dice.below(text.size());
    switch (dice.below(4)) {
    case 0:
        return put(text, {at, text.size() - at}, "", story);
    case 1:
        return put(text, {0, at}, "", story);
    case 2:
        return put(text, line_at(text, at), "", story);
    default:
        return put(text, any_stretch(text, dice, 60), "", story);
    }
}

void double_something(std::string& text, Dice& dice, std::string& story) {
    const Stretch stretch = dice.below(2) == 0 ? line_at(text, dice.below(text.size()))
                                               : any_stretch(text, dice, dice.below(2) == 0 ? 40 : 4000);
    std::string many;
    for (std::size_t times = dice.below(8) == 0 ? 50 : 2; times > 0; --times)
        many += text.substr(stretch.at, stretch.length);
    put(text, stretch, many, story);
}

void swap_lines(std::string& text, Dice& dice, std::string& story) {
    Stretch one = line_at(text, dice.below(text.size()));
    Stretch other = line_at(text, dice.below(text.size()));
    if (one.at > other.at) std::swap(one, other);
    if (one.at + one.length > other.at) return cut(text, dice, story);
    const std::string first = text.substr(one.at, one.length);
    const std::string second = text.substr(other.at, other.length);
    put(text, other, first, story);
    put(text, one, second, story);
}

void spoil_number(std::string& text, Dice& dice, std::string& story) {
    static constexpr std::array others{"1e308",
                                       "-1e308",
                                       "1e309",
                                       "nan",
                                       "-nan",
                                       "NaN",
                                       "inf",
                                       "-inf",
                                       "Infinity",
                                       "0",
                                       "-0.0",
                                       "-1",
                                       "5e-324",
                                       "1e-320",
                                       "1e18",
                                       "1e-18",
                                       "0x10",
                                       "1_000",
                                       "007",
                                       "1.",
                                       ".5",
                                       "1e",
                                       "+",
                                       "9007199254740993",
                                       "18446744073709551616",
                                       "-9223372036854775808",
                                       "9223372036854775807",
                                       "2147483648",
                                       "0.1e1000000",
                                       "1,5"};
    const auto numbers = numbers_in(text);
    if (numbers.empty()) return flip_bytes(text, dice, story);
    const Stretch stretch = dice.of(numbers);
    const std::string number = text.substr(stretch.at, stretch.length);
    switch (dice.below(5)) {
    case 0:
        return put(text, stretch, "-" + number, story);
    case 1: { // as if it were in another unit
        static constexpr std::array powers{"e3", "e-3", "e6", "e-6", "e12", "e-12", "00", "000"};
        return put(text, stretch, number + dice.of(powers), story);
    }
    case 2:
        return put(text, stretch, std::string(1 + dice.below(500), '9'), story);
    default:
        return put(text, stretch, dice.of(others), story);
    }
}

void rename_key(std::string& text, Dice& dice, std::string& story) {
    const auto keys = keys_in(text);
    if (keys.empty()) return flip_bytes(text, dice, story);
    const Stretch key = dice.of(keys);
    const Stretch other = dice.of(keys);
    std::string name = text.substr(key.at, key.length);
    switch (dice.below(4)) {
    case 0:
        name = text.substr(other.at, other.length);
        break;
    case 1:
        name.erase(dice.below(name.size()), 1);
        break;
    case 2:
        name += dice.below(2) == 0 ? "s" : " ";
        break;
    default:
        name[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(name[0])));
    }
    put(text, key, name, story);
}

void nest(std::string& text, Dice& dice, std::string& story) {
    const auto numbers = numbers_in(text);
    const Stretch stretch = numbers.empty() ? any_stretch(text, dice, 5) : dice.of(numbers);
    static constexpr std::array depths{1U, 2U, 30U, 300U, 3000U, 100000U};
    const std::size_t depth = dice.of(depths);
    const std::string inner = text.substr(stretch.at, stretch.length);
    std::string open(depth, '[');
    std::string close(depth, ']');
    if (dice.below(3) == 0) {
        open.clear();
        for (std::size_t level = 0; level < depth; ++level)
            open += R"({"a":)";
        close.assign(depth, '}');
    }
    put(text, stretch, open + inner + (dice.below(3) == 0 ? "" : close), story);
}

void spoil_encoding(std::string& text, Dice& dice, std::string& story) {
    using namespace std::string_view_literals;
    static constexpr std::array pieces{
        "\xff"sv,   "\xfe\xff"sv, "\xc0\xaf"sv,     "\xed\xa0\x80"sv, "\xf5\x80\x80\x80"sv,
        "\x80"sv,   "\xe2\x28"sv, "\0"sv,           "\x1b[2J"sv,      "\xef\xbb\xbf"sv,
        "\r"sv,     "\x7f"sv,     "\xe2\x80\xa8"sv, "\xc2\x85"sv,     "\\ud800"sv,
        "\\u0000"sv};
    const std::string_view piece = dice.of(pieces);
    const auto quoted = quoted_in(text);
    const std::size_t at =
        !quoted.empty() && dice.below(2) == 0 ? dice.of(quoted).at + 1 : dice.below(text.size());
    put(text, {at, 0}, piece, story);
}

std::vector<Stretch> values_in(const std::string& text) {
    auto values = quoted_in(text);
    std::ranges::copy(numbers_in(text), std::back_inserter(values));
    return values;
}

void change_type(std::string& text, Dice& dice, std::string& story) {
    static constexpr std::array others{"\"text\"", "true",       "null",     "[]",        "{}",
                                       "\"\"",     "1979-05-27", "-7",       "[1, 2, 3]", "[\"a\", 1]",
                                       "6000.0",   "{\"a\": 1}", "\"6112\"", "false",     "07:32:00"};
    const auto values = values_in(text);
    if (values.empty()) return flip_bytes(text, dice, story);
    put(text, dice.of(values), dice.of(others), story);
}

void change_unit(std::string& text, Dice& dice, std::string& story) {
    static constexpr std::array others{"\"kohm\"", "\"H\"", "\"mH\"",   "\"F\"",   "\"pF\"",  "\"ohm\"",
                                       "\"degC\"", "\"K\"", "\"degF\"", "\"Hz\"",  "\"deg\"", "\"rad\"",
                                       "\"1\"",    "\"Ω\"", "\"V\"",    "\"ohms\""};
    auto quoted = quoted_in(text);
    const auto is_unit = [&](const Stretch& each) { return each.length <= 6; };
    std::erase_if(quoted, [&](const Stretch& each) { return !is_unit(each); });
    if (quoted.empty()) return change_type(text, dice, story);
    put(text, dice.of(quoted), dice.of(others), story);
}

/// One word of the file in another one's place, as a name where a unit belongs.
void swap_words(std::string& text, Dice& dice, std::string& story) {
    const auto quoted = quoted_in(text);
    if (quoted.size() < 2) return flip_bytes(text, dice, story);
    const Stretch other = dice.of(quoted);
    put(text, dice.of(quoted), text.substr(other.at, other.length), story);
}

constexpr std::array<Harm, 11> harms{flip_bytes, cut,  double_something, swap_lines,  spoil_number,
                                     rename_key, nest, spoil_encoding,   change_type, change_unit,
                                     swap_words};

/// The whole text, line by line.
void show(const Mutant& mutant) {
    fmt::print("{}\n{}\n", mutant.original->name, mutant.story);
    std::istringstream lines(mutant.text);
    for (std::string line; std::getline(lines, line);)
        fmt::print("{}\n", printable(line));
}

double processor_seconds() {
    timespec time{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

} // namespace

Mutant mutant_of(const Original& original, std::uint64_t seed) {
    Dice dice(seed);
    Mutant mutant{.seed = seed, .original = &original, .text = original.text};
    const std::size_t most = 1 + 2 * dice.below(2);
    for (std::size_t many = 1 + dice.below(most); many > 0 && !mutant.text.empty(); --many)
        dice.of(harms)(mutant.text, dice, mutant.story);
    return mutant;
}

constexpr double most_seconds = slowed_down ? 60.0 : 10.0;

Ends try_mutants(const std::vector<Original>& originals, std::uint64_t first, std::size_t count,
                 const std::function<bool(const Mutant&)>& try_one) {
    const char* only = std::getenv(one_seed);
    if (const char* shift = std::getenv(other_seeds)) first += std::strtoull(shift, nullptr, 10);
    Ends ends;
    double longest = 0.0;
    for (std::uint64_t seed = first; seed < first + count; ++seed) {
        if (only && seed != std::strtoull(only, nullptr, 10)) continue;
        const Mutant mutant = mutant_of(originals[(seed - first) % originals.size()], seed);
        if (only) show(mutant);
        SCOPED_TRACE(fmt::format("{}={}: {}: {}", one_seed, seed, mutant.original->name, mutant.story));
        const double began = processor_seconds();
        try {
            ++(try_one(mutant) ? ends.accepted : ends.refused);
        } catch (const std::exception& error) {
            ADD_FAILURE() << "an error that nobody foresaw: " << error.what();
        }
        longest = std::max(longest, processor_seconds() - began);
        EXPECT_LT(processor_seconds() - began, most_seconds) << "it took that many seconds";
    }
    fmt::print("seeds {} to {}: {} refused, {} accepted; the slowest took {:.0f} ms\n", first,
               first + count - 1, ends.refused, ends.accepted, 1000.0 * longest);
    return ends;
}

std::vector<Original> originals_below(const std::string& folder, std::string_view ending) {
    namespace fs = std::filesystem;
    std::vector<Original> originals;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        const std::string name = entry.path().string();
        if (!entry.is_regular_file() || !name.ends_with(ending)) continue;
        std::ifstream file(entry.path(), std::ios::binary);
        originals.push_back({fs::relative(entry.path(), folder), {std::istreambuf_iterator<char>(file), {}}});
    }
    std::ranges::sort(originals, {}, &Original::name);
    return originals;
}

void expect_both(const Ends& ends, std::size_t refused, std::size_t accepted) {
    if (std::getenv(one_seed)) return;
    EXPECT_GT(ends.refused, refused);
    EXPECT_GT(ends.accepted, accepted);
}

void expect_one_line(const std::string& refusal) {
    EXPECT_GT(refusal.size(), 10U) << refusal;
    EXPECT_LT(refusal.size(), longest_refusal) << refusal.substr(0, longest_refusal);
    EXPECT_EQ(printable(refusal), refusal) << "it is one line that can be printed";
}

void expect_useful(const std::string& refusal) {
    expect_one_line(refusal);
    // "member: …", "line 3, …: …", "file:7: …"; about a whole document: "found …, expected …"
    const std::size_t colon = refusal.find(": ");
    EXPECT_TRUE(colon != std::string::npos || refusal.starts_with("found ")) << refusal;
    EXPECT_TRUE(colon == std::string::npos || refusal.size() > colon + 10) << refusal;
}

} // namespace coilward::testing
