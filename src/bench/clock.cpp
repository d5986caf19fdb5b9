#include "bench/clock.h"

#include <thread>

namespace coilward {

using namespace std::chrono;

Moment MachineClock::now() const {
    return floor<milliseconds>(system_clock::now());
}

milliseconds MachineClock::elapsed() const {
    return floor<milliseconds>(steady_clock::now().time_since_epoch());
}

void MachineClock::wait(milliseconds time) {
    std::this_thread::sleep_for(time);
}

} // namespace coilward
