#include "cli/diagnose_lines.h"

#include "cli/diagnosis_answer.h"
#include "reading/json_line.h"

#include <algorithm>
#include <atomic>
#include <istream>
#include <ostream>
#include <string>
#include <thread>
#include <vector>

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

constexpr std::size_t most_lines_together = 512;

std::string refusal(const std::string& text, std::size_t line, const std::exception& error) {
    nlohmann::ordered_json refusal{{"line", line}, {"error", error.what()}};
    if (const std::string id = id_of_document(text); !id.empty()) refusal["id"] = nlohmann::json::parse(id);
    return on_one_line(refusal);
}

std::string answer_to_line(const Rules& rules, const std::string& text, std::size_t line) {
    try {
        return answer_in_json(answer_to_document(rules, text));
    } catch (
        const std::exception& error) { // whatever is wrong with one line, the next ones get their answers
        return refusal(text, line, error);
    }
}

/// The next line, and those that have arrived with it.
std::vector<std::string> lines_at_hand(std::istream& in) {
    std::vector<std::string> lines;
    std::string text;
    do {
        if (!std::getline(in, text)) break;
        lines.push_back(text);
    } while (lines.size() < most_lines_together && in.rdbuf()->in_avail() > 0);
    return lines;
}

std::vector<std::string> answers_to(const Rules& rules, const std::vector<std::string>& lines,
                                    std::size_t first) {
    std::vector<std::string> answers(lines.size());
    std::atomic<std::size_t> next = 0;
    const auto work = [&] {
        for (std::size_t i = next++; i < lines.size(); i = next++)
            answers[i] = answer_to_line(rules, lines[i], first + i);
    };
    const std::size_t processors = std::max(1U, std::thread::hardware_concurrency());
    std::vector<std::jthread> others;
    for (std::size_t i = 1; i < std::min(processors, lines.size()); ++i)
        others.emplace_back(work);
    work();
    others.clear(); // joins
    return answers;
}

} // namespace

void diagnose_lines(const Rules& rules, std::istream& in, std::ostream& out) {
    std::size_t line = 1;
    for (auto lines = lines_at_hand(in); !lines.empty(); lines = lines_at_hand(in)) {
        for (const std::string& answer : answers_to(rules, lines, line))
            out << answer << '\n';
        out.flush();
        line += lines.size();
    }
}

} // namespace coilward
