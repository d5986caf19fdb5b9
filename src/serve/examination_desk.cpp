#include "serve/examination_desk.h"

#include "bench/clock.h"
#include "serve/diagnosis_json_for_page.h"
#include "serve/page_person.h"

#include <fmt/format.h>

namespace coilward {
namespace {

/// The meters go back to the desk however the examination ends.
struct PutAwayInTheEnd {
    PagePerson& person;

    explicit PutAwayInTheEnd(PagePerson& its_person) : person(its_person) {}

    ~PutAwayInTheEnd() { person.put_away(); }

    PutAwayInTheEnd(const PutAwayInTheEnd&) = delete;
    PutAwayInTheEnd& operator=(const PutAwayInTheEnd&) = delete;
};

} // namespace

ExaminationDesk::~ExaminationDesk() {
    board_.close();
    if (thread_.joinable()) thread_.join();
}

bool ExaminationDesk::goes_on() const {
    const Phase phase = board_.face().phase;
    return phase != Phase::idle && phase != Phase::finished && phase != Phase::failed;
}

void ExaminationDesk::begin(const CoilOnBench& coil, const std::vector<Reading>& told) {
    const std::lock_guard lock(beginning_);
    if (goes_on())
        throw CannotExamine(
            fmt::format("{} is being examined; end that first", board_.face().coil->pickup.name));
    const std::string model = coil_model_of(coil.pickup, coil.coil);
    if (!rules_.coil_model(model))
        throw CannotExamine(
            model.empty()
                ? fmt::format("{}: this coil has no coil model yet; choose one first", coil.pickup.name)
                : fmt::format("{}: there is no coil model \"{}\" in the rules", coil.pickup.name, model));
    if (thread_.joinable()) thread_.join();
    board_.change([&](ExaminationFace& face) {
        face = {.version = face.version,
                .step = face.step,
                .phase = Phase::thinking,
                .take_by_settling = face.take_by_settling,
                .coil = coil};
    });
    thread_ = std::thread([this, coil, told] { carry_out(coil, told); });
}

void ExaminationDesk::clear() {
    const std::lock_guard lock(beginning_);
    if (goes_on())
        throw CannotExamine(
            fmt::format("{} is being examined; end that first", board_.face().coil->pickup.name));
    board_.change([](ExaminationFace& face) {
        face = {.version = face.version, .step = face.step, .take_by_settling = face.take_by_settling};
    });
}

void ExaminationDesk::carry_out(const CoilOnBench& coil, const std::vector<Reading>& told) {
    const MachineClock clock;
    try {
        History history = open_history_();
        auto meters = meters_.for_examination();
        PagePerson person(board_, meters_, meters,
                          [&](const Diagnosis& diagnosis) { return diagnosis_for_page(diagnosis, rules_); });
        const PutAwayInTheEnd in_the_end{person};
        const Examined examined =
            examine({.rules = rules_, .history = history, .clock = clock, .meters = meters, .person = person},
                    coil, told);
        const std::string diagnosis = diagnosis_for_page(examined.diagnosis, rules_);
        board_.change([&](ExaminationFace& face) {
            face.phase = Phase::finished;
            face.instruction.reset();
            face.diagnosis = diagnosis;
            face.trouble = examined.lost.empty() ? "" : examined.lost.front();
        });
    } catch (const std::exception& error) {
        board_.change([&](ExaminationFace& face) {
            face.phase = Phase::failed;
            face.instruction.reset();
            face.trouble = error.what();
        });
    }
}

} // namespace coilward
