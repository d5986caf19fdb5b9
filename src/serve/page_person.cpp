#include "serve/page_person.h"

#include "guide/step.h"
#include "serve/take_by_settling.h"

#include <algorithm>
#include <utility>

namespace coilward {
namespace {

using std::chrono::milliseconds;

constexpr milliseconds one_look{500};
constexpr std::size_t most_heard = 200; ///< lines on the board

} // namespace

std::size_t PagePerson::meter_for(const Instruction& instruction) const {
    const auto found = std::ranges::find_if(meters_, [&](const BenchMeter& meter) {
        return meter.driver->id == instruction.meter && !meter.given_up && !meter.replay;
    });
    return static_cast<std::size_t>(found - meters_.begin());
}

void PagePerson::take_up(std::size_t meter) {
    if (in_use_ && *in_use_ != meter) put_away();
    if (!in_use_) desk_.take(meter);
    in_use_ = meter;
    meters_[meter].session.reset(); // its line may have been lost since, and is lent anew
}

void PagePerson::put_away() {
    if (!in_use_) return;
    meters_[*in_use_].session.reset();
    desk_.give_back(*in_use_);
    in_use_.reset();
}

Reply PagePerson::go_on(const BoardReply& answer) {
    board_.change([&](ExaminationFace& face) {
        face.phase = answer.reply == Reply::ready ? Phase::taking : Phase::thinking;
        face.trouble.clear();
    });
    return answer.reply;
}

Reply PagePerson::place(const Instruction& instruction) {
    const std::size_t meter = meter_for(instruction);
    take_up(meter);
    const Between between = instruction.question.between;
    const bool clipped = clipped_ && clipped_->meter == meter && clipped_->between == between;
    board_.ask(Phase::placing, instruction, meter, clipped, "");
    // What hands do to the coil meanwhile, no meter can see: the person says when.
    const bool by_hand = instruction.question.handling.has_value();
    const bool at_once = clipped && !by_hand && instruction.by_hand.empty() && board_.face().take_by_settling;
    const BoardReply answer = at_once ? BoardReply{} : watch_until_ready(meter, instruction);
    if (answer.reply == Reply::ready) clipped_ = {meter, between};
    kick_is_watched_ = answer.reply == Reply::ready && instruction.question.quantity == Quantity::polarity;
    if (!kick_is_watched_) return go_on(answer);
    board_.ask(Phase::touching, instruction, meter, true, "");
    return answer.reply;
}

BoardReply PagePerson::watch_until_ready(std::size_t meter, const Instruction& instruction) {
    TakeBySettling settling(instruction.question.quantity);
    std::optional<BoardReply> answer;
    const auto stop = [&] {
        if (!answer) answer = board_.wait_for_answer(milliseconds(0));
        return answer.has_value();
    };
    const auto each = [&](const StampedReading& stamped) {
        if (settling.offer(stamped) && board_.face().take_by_settling && !instruction.question.handling &&
            !answer)
            answer = BoardReply{};
    };
    try {
        desk_.watch_for(meter, request_for(instruction.question), stop, each);
    } catch (const CannotMeasure& error) { // the meter refused its setup; taking it says so again
        board_.change([&](ExaminationFace& face) { face.trouble = error.what(); });
        while (!answer)
            answer = board_.wait_for_answer(one_look);
    }
    return *answer;
}

Told PagePerson::tell(const Instruction& instruction) {
    kick_is_watched_ = false;
    if (const auto answer = std::exchange(broke_off_, std::nullopt); answer && answer->reply == Reply::stop)
        return {Reply::stop, std::nullopt};
    board_.ask(Phase::telling, instruction, 0, false, "");
    std::optional<BoardReply> answer;
    while (!answer)
        answer = board_.wait_for_answer(one_look);
    board_.change([](ExaminationFace& face) { face.phase = Phase::thinking; });
    if (!answer->reading) return {answer->reply == Reply::stop ? Reply::stop : Reply::skip, std::nullopt};
    Reading reading = instruction.question;
    reading.value = answer->reading->value;
    reading.polarity = answer->reading->polarity;
    return {Reply::ready, reading};
}

Reply PagePerson::mend(const std::string& trouble) {
    board_.ask(Phase::mending, std::nullopt, in_use_.value_or(0), true, trouble);
    std::optional<BoardReply> answer;
    while (!answer) {
        answer = board_.wait_for_answer(one_look);
        if (!answer && in_use_ && desk_.came_back(*in_use_)) answer = BoardReply{};
    }
    return go_on(*answer);
}

void PagePerson::hear(const std::string& line) {
    board_.change([&](ExaminationFace& face) {
        face.heard.push_back(line);
        if (face.heard.size() > most_heard) face.heard.erase(face.heard.begin());
    });
}

void PagePerson::learn(const Diagnosis& diagnosis) {
    const std::string json = in_json_(diagnosis);
    board_.change([&](ExaminationFace& face) {
        face.phase = Phase::thinking;
        face.diagnosis = json;
    });
}

/// Of a kick that is watched for, any answer is the end.
bool PagePerson::see(const StampedReading& stamped) {
    if (in_use_) desk_.show(*in_use_, stamped);
    if (kick_is_watched_) broke_off_ = board_.wait_for_answer(milliseconds(0));
    return !broke_off_;
}

} // namespace coilward
