#pragma once

#include <stdexcept>
#include <string>

namespace coilward {

/// What an action complains of; "accepted" where it does not.
inline std::string message_of(void (*action)()) {
    try {
        action();
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "accepted";
}

} // namespace coilward
