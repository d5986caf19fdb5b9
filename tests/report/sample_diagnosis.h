#pragma once

#include "diagnosis/diagnosis.h"

namespace coilward::testing {

/// A diagnosis with something in every member; its numbers are invented.
inline Diagnosis sample_diagnosis() {
    Diagnosis d;
    d.id = "visit-7";
    d.coil_model = "six-rod-42";
    d.faults = {{"shorted-turns", 0.97, {{"shorted_fraction", 0.031, 0.024, 0.040}}},
                {"healthy", 0.028, {}},
                {"open", 0.002, {}}};
    d.verdict = d.faults.front();
    d.decided = true;
    const Reading resistance{.quantity = Quantity::dc_resistance, .value = 5930.0};
    const Reading inductance{
        .quantity = Quantity::inductance, .circuit = Circuit::series, .frequency_hz = 1000.0, .value = 1.9};
    d.comparisons = {{resistance, 5930.0, 9.0, {5720.0, 6630.0}, Standing::within, 1.0},
                     {inductance, 1.9, 0.01, {2.1, 2.6}, Standing::below, 0.0}};
    d.reasons = {{"series inductance at 1 kHz", "read 1.900 H: too low", 14.2},
                 {"DC resistance", "tells little", 0.3}};
    d.next = {{"polarity", "Touch a pole.", 0.41, 30.0, {.quantity = Quantity::polarity}},
              {"inductance at 120 Hz",
               "Set the meter.",
               0.2,
               15.0,
               {.quantity = Quantity::inductance, .frequency_hz = 120.0}}};
    d.advice = {"Rewind."};
    d.cautions = {"Unplug the amplifier."};
    d.notes = {"no temperature was read"};
    return d;
}

inline Rules sample_rules() {
    Rules rules;
    rules.faults.resize(2);
    rules.faults[0].id = "shorted-turns";
    rules.faults[0].title = "Some turns are shorted";
    rules.faults[1].id = "healthy";
    rules.faults[1].title = "A sound coil";
    return rules;
}

} // namespace coilward::testing
