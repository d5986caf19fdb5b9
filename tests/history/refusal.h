#pragma once

#include <stdexcept>
#include <string>

namespace coilward::testing {

/// The whole text with which the work is refused; "not refused" where it is not.
template <typename Error, typename Work>
std::string refusal(Work&& work) {
    try {
        work();
    } catch (const Error& error) {
        return error.what();
    }
    return "not refused";
}

} // namespace coilward::testing
