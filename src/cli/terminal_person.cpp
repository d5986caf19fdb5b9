#include "cli/terminal_person.h"

#include "report/text_block.h"
#include "units/engineering.h"

#include <cctype>
#include <istream>

#include <fmt/format.h>

namespace coilward {
namespace {

std::string capitalised(std::string text) {
    if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text;
}

std::optional<Reply> reply_in(const std::string& answer) {
    if (answer == "s") return Reply::skip;
    if (answer == "q") return Reply::stop;
    return std::nullopt;
}

std::optional<Polarity> polarity_in(const std::string& answer) {
    if (answer == "+") return Polarity::as_expected;
    if (answer == "-") return Polarity::reversed;
    if (answer == "0") return Polarity::none;
    return std::nullopt;
}

/// The answer as a reading of what was asked, or nothing where it is none.
std::optional<Reading> reading_in(const std::string& answer, Reading question) {
    if (is_polarity(question.quantity)) {
        question.polarity = polarity_in(answer);
        if (!question.polarity) return std::nullopt;
    } else {
        question.value = parse_engineering(answer, unit(question.quantity));
        if (!question.value) return std::nullopt;
    }
    return question;
}

const char* question_about(Quantity quantity) {
    switch (quantity) {
    case Quantity::polarity:
        return "+ as expected, - reversed, 0 no kick; s skips it, q stops here";
    case Quantity::magnet_pole:
        return "+ as expected, - the other pole, 0 no magnet; s skips it, q stops here";
    default:
        return "degrees Celsius; s skips it, q stops here";
    }
}

} // namespace

std::string instruction_page(const Instruction& instruction) {
    std::string page = "\n" + capitalised(describe(instruction.question));
    if (!instruction.meter.empty()) page += fmt::format(", with {}", instruction.meter);
    page += '\n';
    if (!instruction.by_hand.empty()) page += wrapped(instruction.by_hand, "  ");
    return page + wrapped(instruction.how, "  ");
}

/// The next line; "q" at the end of the input.
std::string TerminalPerson::ask(const char* question) {
    fmt::print(out_, "  {}: ", question);
    std::fflush(out_);
    std::string answer;
    if (!std::getline(in_, answer)) return "q";
    while (!answer.empty() && std::isspace(static_cast<unsigned char>(answer.back())))
        answer.pop_back();
    return answer;
}

Reply TerminalPerson::ask_whether_ready(const char* question) {
    for (;;) {
        const std::string answer = ask(question);
        if (answer.empty()) return Reply::ready;
        if (const auto reply = reply_in(answer)) return *reply;
    }
}

Reply TerminalPerson::place(const Instruction& instruction) {
    fmt::print(out_, "{}", instruction_page(instruction));
    return ask_whether_ready("Enter when ready, s skips it, q stops here");
}

Told TerminalPerson::tell(const Instruction& instruction) {
    fmt::print(out_, "{}", instruction_page(instruction));
    const char* question = question_about(instruction.question.quantity);
    for (;;) {
        const std::string answer = ask(question);
        if (const auto reply = reply_in(answer)) return {*reply, std::nullopt};
        if (const auto reading = reading_in(answer, instruction.question)) return {Reply::ready, reading};
    }
}

Reply TerminalPerson::mend(const std::string& trouble) {
    fmt::print(out_, "  {}\n", trouble);
    return ask_whether_ready("Enter tries again, s goes on without it, q stops here");
}

void TerminalPerson::hear(const std::string& line) {
    fmt::print(out_, "  {}\n", line);
    std::fflush(out_);
}

Reply AbsentPerson::place(const Instruction& instruction) {
    const Reading& question = instruction.question;
    const bool needs_hands = question.between != Between::leads || question.quantity == Quantity::polarity ||
                             question.handling.has_value();
    return needs_hands ? Reply::skip : Reply::ready;
}

Told AbsentPerson::tell(const Instruction&) {
    return {Reply::skip, std::nullopt};
}

Reply AbsentPerson::mend(const std::string& trouble) {
    hear(trouble);
    return Reply::skip;
}

void AbsentPerson::hear(const std::string& line) {
    fmt::print(out_, "{}\n", line);
    std::fflush(out_);
}

} // namespace coilward
