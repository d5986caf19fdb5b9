#include "serve/examination_board.h"

#include "history/history_page.h"
#include "reading/json_line.h"
#include "reading/reading_json.h"

#include <array>

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

bool waits(Phase phase) {
    return phase == Phase::placing || phase == Phase::touching || phase == Phase::telling ||
           phase == Phase::mending;
}

Json form_of(const CoilOnBench& on_bench) {
    const Visit& visit = on_bench.visit;
    return {{"number", on_bench.pickup.number},
            {"name", on_bench.pickup.name},
            {"instrument", on_bench.pickup.instrument},
            {"owner", on_bench.pickup.owner},
            {"coil", on_bench.coil},
            {"coil_model", coil_model_of(on_bench.pickup, on_bench.coil)},
            {"visit", text_of(visit.id)},
            {"at", text_of(visit.at)},
            {"stage", visit.stage},
            {"complaint", visit.notes},
            {"rewound", visit.rewound}};
}

Json form_of(const Instruction& instruction) {
    return {{"what", describe(instruction.question)},
            {"quantity", name(instruction.question.quantity)},
            {"between", name(instruction.question.between)},
            {"how", instruction.how},
            {"meter", instruction.meter},
            {"by_hand", instruction.by_hand}};
}

std::string json_of(const ExaminationFace& face) {
    Json json{{"version", face.version},
              {"step", face.step},
              {"phase", name(face.phase)},
              {"take_by_settling", face.take_by_settling}};
    if (face.coil) json["coil"] = form_of(*face.coil);
    if (face.instruction) {
        json["instruction"] = form_of(*face.instruction);
        json["instruction"]["clipped"] = face.clipped;
        if (!face.instruction->meter.empty()) json["instruction"]["meter_index"] = face.meter;
    }
    if (!face.trouble.empty()) json["trouble"] = face.trouble;
    json["heard"] = face.heard;
    if (!face.diagnosis.empty()) json["diagnosis"] = Json::parse(face.diagnosis);
    return on_one_line(json);
}

} // namespace

std::string_view name(Phase phase) {
    constexpr std::array<std::string_view, 9> names{"idle",    "thinking", "placing",  "taking", "touching",
                                                    "telling", "mending",  "finished", "failed"};
    return names.at(static_cast<std::size_t>(phase));
}

ExaminationFace ExaminationBoard::face() const {
    const std::lock_guard lock(mutex_);
    return face_;
}

std::string ExaminationBoard::face_in_json() const {
    return json_of(face());
}

void ExaminationBoard::tell() {
    ++face_.version;
    stream_.publish("examination", json_of(face_));
}

std::uint64_t ExaminationBoard::ask(Phase phase, const std::optional<Instruction>& instruction,
                                    std::size_t meter, bool clipped, const std::string& trouble) {
    const std::lock_guard lock(mutex_);
    reply_.reset();
    ++face_.step;
    face_.phase = phase;
    if (instruction) face_.instruction = instruction;
    face_.meter = meter;
    face_.clipped = clipped;
    face_.trouble = trouble;
    tell();
    return face_.step;
}

bool ExaminationBoard::answer(const BoardReply& reply) {
    const std::lock_guard lock(mutex_);
    if (reply_ || reply.step != face_.step || !waits(face_.phase)) return false;
    reply_ = reply;
    answered_.notify_all();
    return true;
}

std::optional<BoardReply> ExaminationBoard::wait_for_answer(std::chrono::milliseconds at_most) {
    std::unique_lock lock(mutex_);
    answered_.wait_for(lock, at_most, [&] { return closed_ || reply_; });
    if (closed_) return BoardReply{.step = face_.step, .reply = Reply::stop, .reading = std::nullopt};
    return reply_;
}

void ExaminationBoard::close() {
    const std::lock_guard lock(mutex_);
    closed_ = true;
    answered_.notify_all();
}

} // namespace coilward
