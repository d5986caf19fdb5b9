#include "meter/frame.h"

namespace coilward {

void clear(Frame& frame) {
    frame.verdict = Verdict::no_start;
    frame.readings.clear();
    frame.bytes = {};
    frame.unusual_digits = 0;
    frame.note.clear();
}

} // namespace coilward
