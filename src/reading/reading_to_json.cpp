#include "reading/examination_json.h"
#include "reading/reading_json.h"

#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {
namespace {

double finite(double number, const Reading& reading) {
    if (std::isfinite(number)) return number;
    throw std::invalid_argument(fmt::format("{}: {} cannot be written as JSON; write a state instead of it",
                                            describe(reading), number));
}

} // namespace

nlohmann::ordered_json readings_form(const Reading& reading) {
    nlohmann::ordered_json form;
    const auto put = [&](const char* key, std::optional<double> number) {
        if (number) form[key] = finite(*number, reading);
    };
    form["quantity"] = name(reading.quantity);
    if (!reading.coil.empty()) form["coil"] = reading.coil;
    const bool has_polarity = is_polarity(reading.quantity);
    if (has_polarity && reading.polarity) form["value"] = name(*reading.polarity);
    const bool has_points = !has_polarity && reading.quantity != Quantity::temperature;
    if (has_points || reading.between != Between::leads) form["between"] = name(reading.between);
    if (reading.circuit) form["circuit"] = name(*reading.circuit);
    put("frequency", reading.frequency_hz);
    if (reading.state != State::ok) form["state"] = name(reading.state);
    if (reading.handling) form["handling"] = name(*reading.handling);
    if (has_polarity) return form;
    put("value", reading.value);
    put("limit", reading.limit);
    put("spread", reading.spread);
    form["unit"] = unit(reading.quantity);
    put("standard_uncertainty", reading.standard_uncertainty);
    return form;
}

std::string reading_to_json(const Reading& reading) {
    return readings_form(reading).dump();
}

} // namespace coilward
