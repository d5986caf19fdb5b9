#include "cli/interrupt.h"

#include <csignal>

namespace coilward {
namespace {

volatile std::sig_atomic_t interrupted = 0;

void take_note(int) {
    interrupted = 1;
}

} // namespace

void note_interrupts() {
    std::signal(SIGINT, take_note);
    std::signal(SIGTERM, take_note);
}

bool is_interrupted() {
    return interrupted != 0;
}

} // namespace coilward
