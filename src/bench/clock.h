#pragma once

#include "units/moment.h"

#include <chrono>

namespace coilward {

/// Where time comes from: the machine, a capture that is replayed, or a test.
class Clock {
public:
    virtual ~Clock() = default;

    /// Now, for stamps on readings.
    virtual Moment now() const = 0;

    /// Time since some fixed moment; never steps back. For deadlines.
    virtual std::chrono::milliseconds elapsed() const = 0;

    /// Lets that much time go by.
    virtual void wait(std::chrono::milliseconds) = 0;
};

/// The machine's own time.
class MachineClock : public Clock {
public:
    Moment now() const override;
    std::chrono::milliseconds elapsed() const override;
    void wait(std::chrono::milliseconds) override;
};

} // namespace coilward
