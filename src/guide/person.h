#pragma once

#include "bench/meter_session.h"
#include "diagnosis/diagnosis.h"
#include "reading/reading.h"

#include <optional>
#include <string>

namespace coilward {

/// What is to be done for one reading.
struct Instruction {
    Reading question;    ///< without a value
    std::string how;     ///< where the probes go
    std::string meter;   ///< the driver that reads it; empty where the person tells it
    std::string by_hand; ///< what to set on the meter; empty for one that obeys commands
};

/// What a person answers to a step.
enum class Reply {
    ready,
    skip, ///< go on without it
    stop, ///< end the examination here
};

/// What a person read off: the reading with Reply::ready.
struct Told {
    Reply reply = Reply::skip;      ///< ready where there is a reading
    std::optional<Reading> reading; ///< in SI units
};

/// Whoever stands at the bench.
class Person {
public:
    virtual ~Person() = default;

    /// Puts the probes where the instruction says.
    virtual Reply place(const Instruction&) = 0;

    /// Reads off what no meter at hand gives: a temperature or a polarity.
    virtual Told tell(const Instruction&) = 0;

    /// Something went wrong, said in one line with what to do; `ready` means: try again.
    virtual Reply mend(const std::string& trouble) = 0;

    /// One line about what was read or what is known now.
    virtual void hear(const std::string&) = 0;

    /// What is known now, whole. For whoever shows more than lines.
    virtual void learn(const Diagnosis&) {}

    /// What the meter shows while a reading is taken or a kick is waited for. False: the kick is not to be
    /// waited for any longer.
    virtual bool see(const StampedReading&) { return true; }
};

} // namespace coilward
