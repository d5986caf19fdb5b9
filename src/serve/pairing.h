#pragma once

#include "bench/clock.h"

#include <functional>
#include <mutex>
#include <optional>
#include <set>
#include <string>

namespace coilward {

/// Lets devices in that know the code which the terminal shows: eight digits, good for one device, then
/// another. Five wrong ones within a minute, and nobody is let in for the rest of it. What a device is
/// known by afterwards is 244 random bits; both are forgotten when the server ends. For several threads.
/// Making a code or letting a device in throws std::system_error where the system gives no random numbers.
class Pairing {
public:
    /// `show` is told each new code; `clock` must outlive it.
    Pairing(const Clock& clock, std::function<void(const std::string& code)> show);

    /// `too_many`: whatever the code, until the minute is over.
    enum class Outcome { paired, wrong, too_many };

    /// What a device that tries is told.
    struct Answer {
        Outcome outcome = Outcome::wrong;
        std::string device; ///< when paired: what it is known by from now on
    };

    /// A right code is used up: a new one is shown.
    Answer try_code(const std::string& code);

    /// Whether a device that was let in is known by that.
    bool knows(const std::string& device) const;

private:
    void new_code();

    static constexpr std::size_t tries = 5;
    static constexpr std::chrono::milliseconds window{60000};

    const Clock& clock_;
    std::function<void(const std::string&)> show_;
    mutable std::mutex mutex_;
    std::string code_;
    std::set<std::string> devices_;
    std::size_t wrong_ = 0;
    std::chrono::milliseconds first_wrong_{0};
};

} // namespace coilward
