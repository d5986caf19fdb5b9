#include "bench/capture.h"

#include "bench/capture_bytes.h"
#include "toml/utf8.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using Kind = CaptureEvent::Kind;

constexpr std::string_view first_line = "coilward capture 1";
constexpr std::int64_t longest_ms = 1'000'000'000'000; ///< some thirty years; a later moment is a slip
constexpr std::array<std::string_view, 5> further_keys{"display", "by", "instrument", "serial", "note"};

/// Where the reader is, for messages.
struct LinePlace {
    const std::string* file;
    int line;
};

[[noreturn]] void refuse(LinePlace at, const std::string& why) {
    throw BadCapture(fmt::format("{}:{}: {}", *at.file, at.line, printable(why)));
}

bool is_further_key(std::string_view key) {
    return std::find(further_keys.begin(), further_keys.end(), key) != further_keys.end();
}

Moment began_at(std::string_view text, LinePlace at) {
    const auto moment = moment_from_text(text);
    if (!moment)
        refuse(at,
               fmt::format("found \"{}\", expected a moment as 2026-03-02T10:00:00.000Z", shortened(text)));
    return *moment;
}

MeasurementRequest request_at(std::string_view text, LinePlace at) {
    const auto request = request_from_text(text);
    if (!request)
        refuse(at,
               fmt::format(
                   "found \"{}\", expected a quantity, and where they matter a circuit, a frequency in Hz "
                   "and the points, as \"inductance series 1000\"",
                   shortened(text)));
    return *request;
}

void take_header(std::string_view key, std::string_view value, Capture& capture, LinePlace at) {
    if (value.empty()) refuse(at, fmt::format("\"{}:\" has no text behind it", shortened(key)));
    if (key == "driver") {
        capture.driver = value;
    } else if (key == "title") {
        capture.title = value;
    } else if (key == "provenance") {
        if (!capture.provenance.empty()) capture.provenance += '\n';
        capture.provenance += value;
    } else if (key == "began") {
        capture.began = began_at(value, at);
    } else if (key == "request") {
        capture.request = request_at(value, at);
    } else if (key == "starts" && value == "mid-frame") {
        capture.starts_mid_frame = true;
    } else if (is_further_key(key)) {
        capture.also[std::string(key)] = value;
    } else {
        refuse(at,
               fmt::format("found \"{}: {}\", expected driver, title, began, request, provenance, \"starts: "
                           "mid-frame\", {}",
                           shortened(key), shortened(value), fmt::join(further_keys, ", ")));
    }
}

milliseconds time_at(std::string_view text, const Capture& capture, LinePlace at) {
    std::int64_t number = -1;
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, number);
    if (error != std::errc{} || stop != end || number < 0 || number > longest_ms)
        refuse(at, fmt::format("found time \"+{}\", expected milliseconds since the capture began, as +250",
                               shortened(text)));
    const milliseconds time(number);
    if (!capture.events.empty() && time < capture.events.back().at)
        refuse(at, fmt::format("found time +{} behind +{}, expected times that never go back", number,
                               capture.events.back().at.count()));
    return time;
}

/// "+112 < ..." without the plus sign.
CaptureEvent event_at(std::string_view line, const Capture& capture, LinePlace at) {
    constexpr std::string_view form = "+MS > BYTES, +MS < BYTES or +MS ! unplugged";
    const std::size_t blank = line.find(' ');
    if (blank == std::string_view::npos || line.size() < blank + 4 || line[blank + 2] != ' ')
        refuse(at, fmt::format("found \"+{}\", expected {}", shortened(line), form));
    CaptureEvent event{.at = time_at(line.substr(0, blank), capture, at)};
    const std::string_view rest = line.substr(blank + 3);
    switch (line[blank + 1]) {
    case '>':
        event.kind = Kind::sent;
        break;
    case '<':
        event.kind = Kind::received;
        break;
    case '!':
        event.kind = Kind::unplugged;
        break;
    default:
        refuse(at, fmt::format("found \"+{}\", expected {}", shortened(line), form));
    }
    if (event.kind == Kind::unplugged) {
        if (rest != "unplugged")
            refuse(at, fmt::format("found \"! {}\", expected \"! unplugged\"", shortened(rest)));
        return event;
    }
    const auto bytes = bytes_from_text(rest);
    if (!bytes)
        refuse(at,
               fmt::format("found {}, expected text in quotation marks (with \\r \\n \\t \\\" \\\\ \\xNN) or "
                           "hexadecimal bytes parted by one blank, as 02 34 0D",
                           shortened(rest)));
    event.bytes = *bytes;
    return event;
}

void take_line(std::string_view line, Capture& capture, LinePlace at) {
    if (line.empty() || line.starts_with('#')) return;
    if (line.starts_with('+')) {
        if (!capture.events.empty() && capture.events.back().kind == Kind::unplugged)
            refuse(at, "found a line behind \"! unplugged\", expected the end of the capture");
        capture.events.push_back(event_at(line.substr(1), capture, at));
        return;
    }
    const std::size_t colon = line.find(": ");
    if (colon == std::string_view::npos)
        refuse(at,
               fmt::format(
                   "found \"{}\", expected \"KEY: TEXT\", a line that begins with +MS, or # and a comment",
                   shortened(line)));
    if (!capture.events.empty())
        refuse(at, "found a heading behind the first event, expected headings first");
    take_header(line.substr(0, colon), line.substr(colon + 2), capture, at);
}

void check_complete(const Capture& capture, LinePlace at) {
    const auto need = [&](bool present, std::string_view key) {
        if (!present) refuse(at, fmt::format("the capture ended without \"{}:\", which it needs", key));
    };
    need(!capture.driver.empty(), "driver");
    need(!capture.title.empty(), "title");
    need(capture.began != Moment{}, "began");
    need(!capture.provenance.empty(), "provenance");
}

} // namespace

Capture capture_from_text(std::string_view text, const std::string& file) {
    Capture capture;
    LinePlace at{.file = &file, .line = 0};
    while (!text.empty()) {
        ++at.line;
        const std::size_t end = std::min(text.find('\n'), text.size());
        std::string_view line = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        while (line.ends_with('\r'))
            line.remove_suffix(1);
        if (at.line == 1) {
            if (line != first_line)
                refuse(at, fmt::format("found \"{}\", expected \"{}\" in the first line", shortened(line),
                                       first_line));
            continue;
        }
        take_line(line, capture, at);
    }
    if (at.line == 0)
        refuse({.file = &file, .line = 1}, fmt::format("the file is empty, expected \"{}\"", first_line));
    check_complete(capture, at);
    return capture;
}

Capture read_capture(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in || std::filesystem::is_directory(file))
        throw BadCapture(fmt::format("{}: this capture cannot be read; check its name", file.string()));
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    return capture_from_text(text, file.string());
}

std::string to_text(const CaptureEvent& event) {
    switch (event.kind) {
    case Kind::sent:
        return fmt::format("+{} > {}", event.at.count(), shown_bytes(event.bytes));
    case Kind::received:
        return fmt::format("+{} < {}", event.at.count(), shown_bytes(event.bytes));
    case Kind::unplugged:
        break;
    }
    return fmt::format("+{} ! unplugged", event.at.count());
}

std::string to_text(const Capture& capture) {
    std::string text{first_line};
    const auto put = [&](std::string_view key, std::string_view value) {
        if (!value.empty()) text += fmt::format("\n{}: {}", key, value);
    };
    put("driver", capture.driver);
    put("title", capture.title);
    put("began", text_of(capture.began));
    if (capture.request) put("request", to_text(*capture.request));
    if (capture.starts_mid_frame) put("starts", "mid-frame");
    std::string_view provenance = capture.provenance;
    while (!provenance.empty()) {
        const std::size_t end = std::min(provenance.find('\n'), provenance.size());
        put("provenance", provenance.substr(0, end));
        provenance.remove_prefix(std::min(end + 1, provenance.size()));
    }
    for (const auto& [key, value] : capture.also)
        put(key, value);
    text += "\n\n";
    for (const CaptureEvent& event : capture.events)
        text += to_text(event) + '\n';
    return text;
}

} // namespace coilward
