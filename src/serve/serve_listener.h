#pragma once

#include <functional>
#include <string>

namespace coilward {

/// What the server tells of its own running, for a log. Called from many threads.
struct ServeListener {
    /// A request that was answered with an error: 400 and up.
    std::function<void(const std::string& method, const std::string& path, int status)> refused =
        [](const std::string&, const std::string&, int) {};
    /// A meter whose state changed, as MeterFace says it.
    std::function<void(const std::string& driver, const std::string& port, const std::string& state,
                       const std::string& says)>
        meter = [](const std::string&, const std::string&, const std::string&, const std::string&) {};
};

} // namespace coilward
