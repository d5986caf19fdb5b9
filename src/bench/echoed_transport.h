#pragma once

#include "bench/transport.h"

#include <memory>
#include <string>

namespace coilward {

/// For a meter that returns every character that it is sent and takes the next one only then (B&K Precision
/// 2831E/5491B manual, p. 42 and 46). While it is busy it ignores what it is sent, so that a character
/// without echo is sent again; where none comes the command is given up with its terminator alone, and is
/// asked for again like any that got no answer. The echoes are not handed on.
class EchoedTransport : public Transport {
public:
    /// Takes over the line to such a meter.
    explicit EchoedTransport(std::unique_ptr<Transport>);

    Received read(std::chrono::milliseconds at_most) override;
    LinkOutcome write(std::string_view bytes) override;

    bool starts_at_a_frame() const override { return line_->starts_at_a_frame(); }

private:
    LinkOutcome send_until_echoed(char character);
    LinkOutcome await_echo(char character);

    std::unique_ptr<Transport> line_;
    std::string waiting_; ///< what came between the echoes
};

} // namespace coilward
