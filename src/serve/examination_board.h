#pragma once

#include "guide/person.h"
#include "guide/visit_record.h"
#include "serve/broadcast.h"

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// What an examination waits for, or does.
enum class Phase {
    idle,     ///< there is none
    thinking, ///< about the readings, and what to measure next
    placing,  ///< waits for the probes
    taking,   ///< the reading is taken; hands off
    touching, ///< watches for a kick and says when to touch; an answer ends that
    telling,  ///< waits for what the person reads off
    mending,  ///< something went wrong; waits for the person or the meter
    finished, ///< the verdict is in the history
    failed,   ///< it could not go on; what was read is in the history
};

/// The word of docs/openapi.json.
std::string_view name(Phase);

/// The examination as every page shows it.
struct ExaminationFace {
    std::uint64_t version = 0;              ///< grows with every change
    std::uint64_t step = 0;                 ///< of the question that is open; grows with every question
    Phase phase = Phase::idle;              ///< what it does now
    bool take_by_settling = true;           ///< a reading is taken as it settles, without a click
    std::optional<CoilOnBench> coil;        ///< which is examined; absent while none is
    std::optional<Instruction> instruction; ///< the latest
    std::size_t meter = 0;                  ///< of the instruction, where it has one
    bool clipped = false;                   ///< the probes are where the last reading had them
    std::string trouble;                    ///< with mending and failed, one line
    std::vector<std::string> heard;         ///< what Person::hear was told, one line each
    std::string diagnosis;                  ///< as diagnosis_for_page writes it; empty before there is one
};

/// An answer to a question of the examination.
struct BoardReply {
    std::uint64_t step = 0;         ///< of the question that is answered
    Reply reply = Reply::ready;     ///< ready, skip or stop
    std::optional<Reading> reading; ///< with ready, where one was asked for
};

/// What an examination says to the pages and hears from them. The examination has a thread of its own; any
/// thread may look and answer. Every change is told to the stream.
class ExaminationBoard {
public:
    /// The stream must outlive it.
    explicit ExaminationBoard(Broadcast& stream) : stream_(stream) {}

    /// A copy, as it is now.
    ExaminationFace face() const;

    /// The same as the stream tells it (docs/openapi.json), on one line.
    std::string face_in_json() const;

    /// Changes the face; `change` is called under the board's lock.
    template <typename Change>
    void change(const Change& change) {
        const std::lock_guard lock(mutex_);
        change(face_);
        tell();
    }

    /// Opens a question and returns its step. What was answered to an earlier one does not count.
    std::uint64_t ask(Phase, const std::optional<Instruction>&, std::size_t meter, bool clipped,
                      const std::string& trouble);

    /// False where the question is not open any more: somebody else answered first.
    bool answer(const BoardReply&);

    /// The answer to the open question within that time; `stop` where the board was closed.
    std::optional<BoardReply> wait_for_answer(std::chrono::milliseconds at_most);

    /// Ends whatever waits.
    void close();

private:
    void tell();

    Broadcast& stream_;
    mutable std::mutex mutex_;
    std::condition_variable answered_;
    ExaminationFace face_;
    std::optional<BoardReply> reply_;
    bool closed_ = false;
};

} // namespace coilward
