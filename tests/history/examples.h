#pragma once

#include "history/history.h"
#include "reading/examination_json.h"

#include <ostream>
#include <string>

namespace coilward {

/// How a test that fails shows a reading.
inline void PrintTo(const Reading& reading, std::ostream* out) {
    *out << reading_to_json(reading);
}

inline void PrintTo(const StoredReading& stored, std::ostream* out) {
    *out << text_of(stored.id) << ' ' << text_of(stored.at) << ' ' << reading_to_json(stored.reading);
}

} // namespace coilward

/// Invented pickups and readings with fixed ids and times.
namespace coilward::testing {

/// An id that is easily told from others: 00000000-0000-4000-8000-0000000000NN for n < 256.
inline Id id(unsigned n) {
    Id made;
    made.bytes[6] = 0x40;
    made.bytes[8] = 0x80;
    made.bytes[14] = static_cast<std::uint8_t>(n / 256);
    made.bytes[15] = static_cast<std::uint8_t>(n % 256);
    return made;
}

inline Moment at(const char* text) {
    return moment_from_text(text).value();
}

inline Pickup bridge() {
    return {.id = id(1),
            .number = 0,
            .added_at = at("2026-03-02T09:00:00.001Z"),
            .name = "Bridge, red guitar",
            .owner = "A. Nonymous",
            .instrument = "red guitar, 6 strings",
            .pickup_type = "dual-coil-series",
            .coils = {{"slug", "six-slug-42"}, {"screw", "six-screw-42"}},
            .notes = "weak since the house move"};
}

inline Pickup neck() {
    return {.id = id(2),
            .number = 0,
            .added_at = at("2026-03-02T09:05:00Z"),
            .name = "Neck, red guitar",
            .owner = "A. Nonymous",
            .instrument = "red guitar, 6 strings",
            .pickup_type = "single-coil",
            .coils = {{"", "six-rod-42"}},
            .notes = ""};
}

inline Visit visit_of(const Pickup& pickup, unsigned n, const char* when) {
    return {.id = id(n),
            .pickup = pickup.id,
            .at = at(when),
            .stage = "as received",
            .rewound = false,
            .notes = ""};
}

inline Reading temperature(double celsius) {
    return {.quantity = Quantity::temperature, .value = celsius};
}

inline Reading dc_resistance(double ohm, std::string coil = "") {
    return {.quantity = Quantity::dc_resistance,
            .between = Between::leads,
            .circuit = std::nullopt,
            .frequency_hz = std::nullopt,
            .state = State::ok,
            .value = ohm,
            .standard_uncertainty = 9.0,
            .limit = std::nullopt,
            .spread = std::nullopt,
            .polarity = std::nullopt,
            .coil = std::move(coil)};
}

inline StoredReading stored(const Visit& visit, unsigned n, const Reading& reading) {
    return {.id = id(n),
            .visit = visit.id,
            .at = visit.at + std::chrono::milliseconds(n),
            .meter = "",
            .port = "",
            .reading = reading,
            .raw = "",
            .corrects = std::nullopt,
            .remark = ""};
}

inline StoredVerdict verdict(const Visit& visit, unsigned n, std::string coil, bool healthy,
                             bool decided = true) {
    return {.id = id(n),
            .visit = visit.id,
            .coil = std::move(coil),
            .at = visit.at + std::chrono::seconds(n),
            .fault = healthy ? "healthy" : "shorted-turns",
            .probability = 0.973,
            .decided = decided,
            .healthy = healthy,
            .document = R"({"coil_model": "six-rod-42"})"};
}

/// What is attached: a file with this text.
inline constexpr const char* label = "label";

inline Attachment label_of(const Pickup& pickup, Moment at) {
    return {.id = id(50),
            .pickup = pickup.id,
            .at = at,
            .name = "label.txt",
            .media_type = "text/plain",
            .note = "",
            .content = content_hash(label)};
}

} // namespace coilward::testing
