#pragma once

#include "serve/broadcast.h"
#include "serve/examination_board.h"
#include "serve/examination_desk.h"
#include "serve/meter_desk.h"
#include "serve/pairing.h"
#include "serve/serve_listener.h"

#include <functional>

namespace coilward {

/// What the HTTP interface works with. All of it outlives the server.
struct BenchServices {
    const Rules& rules;
    std::function<History()> open_history; ///< one connection a request; throws HistoryError
    Broadcast& stream;                     ///< what every open page is told
    MeterDesk& meters;
    ExaminationBoard& board;
    ExaminationDesk& examinations;
    Pairing* pairing = nullptr; ///< absent where only this machine is listened to
    ServeListener listener{};   ///< for the log
};

} // namespace coilward
