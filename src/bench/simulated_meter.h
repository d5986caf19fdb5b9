#pragma once

#include "meter/driver.h"
#include "meter/measurement.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <random>
#include <string>
#include <string_view>
#include <variant>

namespace coilward {

/// What lies between the probes: the true value in SI units, or nothing where the meter cannot range so far.
/// The frequency is 0 for direct current.
using SimulatedCoil = std::function<std::optional<double>(Quantity, Circuit, double frequency_hz)>;

/// What is added to exact values, as parts of a reading.
struct SimulatedNoise {
    double relative = 0.0;  ///< standard deviation of each reading, as a part of it
    double scatter = 0.0;   ///< each reading is too high by up to this part, as with an unsteady contact
    std::uint64_t seed = 1; ///< the same noise for the same seed
    int decimals = 5;       ///< digits behind the point that the meter sends
};

/// A meter that obeys a driver's own commands and speaks in its layout: set-up, function and frequency
/// questions, identity, poll or stream. Bytes in, bytes out; no time, no ports. The driver must outlive it.
class SimulatedMeter {
public:
    /// The driver must outlive it.
    SimulatedMeter(const Driver&, SimulatedCoil, SimulatedNoise = {});

    /// Turns its knob. Throws std::invalid_argument where it cannot measure that.
    void turn_to(const MeasurementRequest&);

    /// What the meter sends back on these bytes. Commands may arrive in pieces.
    std::string answer(std::string_view bytes);

    /// True where the meter sends by itself.
    bool streams() const { return !driver_->poll; }

    /// The next reading of a meter that streams.
    std::string unasked();

private:
    std::string answer_to(std::string_view command);
    std::string answers_to_lines();
    std::string reading();
    std::string reading_frames();
    double frequency_hz() const;
    bool obey(std::string_view command);
    std::string reading_line();
    std::string line_end() const;
    std::optional<double> measured(std::size_t index);
    std::string number(double value) const;
    std::optional<std::string> number_as_sent(double value) const;
    std::string overload_text() const;
    std::string value_text(const LineField&, std::optional<double> value, const LineLayout&) const;
    std::string status_text(Meaning) const;

    const Driver* driver_;
    SimulatedCoil coil_;
    SimulatedNoise noise_;
    std::mt19937_64 random_;
    std::string pending_; ///< a command that is not yet whole
    const MeterSetup* setup_;
    double frequency_hz_ = 1000.0;
    bool misunderstood_ = false;
};

} // namespace coilward
