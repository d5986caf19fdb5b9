#include "serve/live_json.h"

#include "history/history_page.h"
#include "reading/json_line.h"
#include "units/engineering.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

/// As many digits as reach down to the last one that the meter sends.
int digits_of(double value, double resolution) {
    if (value == 0.0 || resolution <= 0.0) return 5;
    const double digits = std::floor(std::log10(std::abs(value))) - std::floor(std::log10(resolution)) + 1.0;
    return static_cast<int>(std::clamp(digits, 1.0, 6.0));
}

Json reading_form(const StampedReading& stamped) {
    const Reading& reading = stamped.reading;
    Json form{{"at", text_of(stamped.at)},       {"what", describe(reading)},
              {"words", display_words(stamped)}, {"quantity", name(reading.quantity)},
              {"unit", unit(reading.quantity)},  {"state", name(reading.state)}};
    if (reading.value && std::isfinite(*reading.value)) form["value"] = *reading.value;
    if (!stamped.note.empty()) form["note"] = stamped.note;
    return form;
}

} // namespace

std::string display_words(const StampedReading& stamped) {
    const Reading& reading = stamped.reading;
    if (reading.state != State::ok || !reading.value) return answer_in_words(reading);
    return engineering(*reading.value, unit(reading.quantity), digits_of(*reading.value, stamped.resolution));
}

std::string meter_to_json(std::size_t index, const BenchMeter& meter, const MeterFace& face) {
    Json json{{"index", index},
              {"meter", meter.driver->id},
              {"title", meter.driver->title},
              {"draft", meter.driver->status == DriverStatus::draft},
              {"port", meter.port},
              {"state", face.state},
              {"says", face.says}};
    if (face.reading) json["reading"] = reading_form(*face.reading);
    return on_one_line(json);
}

std::string trace_point_to_json(const StampedReading& stamped) {
    const Reading& reading = stamped.reading;
    const bool number = reading.state == State::ok && reading.value && std::isfinite(*reading.value);
    return on_one_line(Json{{"at", text_of(stamped.at)},
                            {"what", describe(reading)},
                            {"unit", unit(reading.quantity)},
                            {"value", number ? Json(*reading.value) : Json()}});
}

} // namespace coilward
