#pragma once

#include "meter/driver.h"
#include "reading/reading.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// What a person, or the next step of an examination, wants to have measured.
struct MeasurementRequest {
    Quantity quantity{};
    std::optional<double> frequency_hz; ///< of the test signal; absent: whichever the meter offers
    std::optional<Circuit> circuit;     ///< absent: whichever the meter offers
    Between between = Between::leads;
    std::string coil; ///< empty for the only one
};

/// The request as text without its coil: "inductance", "inductance series 1000", "capacitance parallel 1000
/// start-frame".
std::string to_text(const MeasurementRequest&);

/// Reads that form, the words behind the quantity in any order; nothing where the text is no request.
std::optional<MeasurementRequest> request_from_text(std::string_view text);

/// The first of the driver's setups that gives the quantity, in the circuit, at the frequency; nullptr where
/// the meter cannot do it.
const MeterSetup* setup_for(const Driver&, const MeasurementRequest&);

/// The frequency at which a setup then measures: the one asked for, else 1 kHz, else the nearest that it has;
/// nothing for a setup without a test signal.
std::optional<double> frequency_for(const MeterSetup&, const MeasurementRequest&);

/// True where this is one of the names by which the meter calls the setup; case and quotation marks do not
/// count.
bool is_called(const MeterSetup&, std::string_view function_name);

/// The first setup that the meter calls by this name, or nullptr.
const MeterSetup* setup_called(const Driver&, std::string_view function_name);

/// The setup's commands for a frequency, each without its terminator.
std::vector<std::string> commands_for(const MeterSetup&, std::optional<double> frequency_hz);

/// What the person has to do for it; empty for a meter that obeys commands.
std::string instruction_for(const MeterSetup&, std::optional<double> frequency_hz);

/// What the replies mean once the commands were carried out, and the meter is at that frequency.
MeterSetting setting_for(const MeterSetup&, std::optional<double> frequency_hz);

/// The reading as the request calls it: between its points, of its coil; a resistance that was measured to
/// the frame is an insulation resistance.
Reading as_requested(Reading, const MeasurementRequest&);

} // namespace coilward
