#pragma once

#include "bench/port.h"

#include <functional>
#include <memory>

namespace coilward {

/// A port that stays open while one conversation after another takes place on it: a watch, then a
/// measurement, then a watch. Each ends before the next begins. After the device was lost the next one opens
/// it anew.
class KeptPort {
public:
    /// `open` may throw TransportError, which lend() passes on.
    explicit KeptPort(std::function<Link()> open) : open_(std::move(open)) {}

    /// The port for one conversation. Throws TransportError.
    Link lend();

    /// True after the device was lost, until it was opened anew.
    bool lost() const { return line_ && line_->lost; }

private:
    struct Line {
        Link link;
        bool used = false; ///< by an earlier conversation
        bool lost = false;
    };

    class Lease;

    std::function<Link()> open_;
    std::shared_ptr<Line> line_;
};

} // namespace coilward
