#include "draw.h"
#include "mistakes.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

namespace population {
namespace {

using Json = nlohmann::ordered_json;

Json document(const char* model, double inductance_h, double resistance_ohm) {
    const auto number = [](const char* quantity, double value, double frequency_hz) {
        Json reading{{"quantity", quantity},
                     {"between", "leads"},
                     {"value", value},
                     {"standard_uncertainty", value / 1000}};
        if (frequency_hz > 0.0) reading["frequency"] = frequency_hz;
        return reading;
    };
    return {{"coil_model", model},
            {"readings",
             {number("dc_resistance", 6000.0, 0.0), number("inductance", inductance_h, 1000.0),
              number("ac_resistance", resistance_ohm, 1000.0)}}};
}

const Mistake& named(std::string_view name) {
    for (const Mistake& mistake : mistakes())
        if (mistake.name == name) return mistake;
    throw std::out_of_range(std::string(name));
}

TEST(Mistakes, ChangeTheDocument) {
    for (const Mistake& mistake : mistakes()) {
        Json made = document("a", 2.0, 6500.0);
        ASSERT_TRUE(mistake.make(made, document("b", 3.0, 8000.0), 7)) << mistake.name;
        EXPECT_NE(made, document("a", 2.0, 6500.0)) << mistake.name;
    }
}

/// R in series with L is R' beside L' where both have the same admittance.
TEST(Mistakes, ParallelModeHasTheSameImpedance) {
    Json made = document("a", 2.0, 6500.0);
    ASSERT_TRUE(named("parallel mode, told series").make(made, made, 1));
    const double omega = 2.0 * std::numbers::pi * 1000.0;
    const std::complex<double> series(6500.0, omega * 2.0);
    const std::complex<double> beside =
        1.0 / (1.0 / made["readings"][2]["value"].get<double>() +
               1.0 / std::complex<double>(0.0, omega * made["readings"][1]["value"].get<double>()));
    EXPECT_NEAR(std::abs(beside - series), 0.0, 1e-9 * std::abs(series));
}

} // namespace
} // namespace population
