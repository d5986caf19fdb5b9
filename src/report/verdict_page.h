#pragma once

#include "diagnosis/pickup_diagnosis.h"

#include <string>

namespace coilward {

/// The whole answer for a terminal of at least 80 columns: verdict and estimates, each reading on the band of
/// what healthy coils measure, probabilities as bars, reasons, what to measure next, advice and cautions.
std::string verdict_page(const Diagnosis&, const Rules&);

/// The same for each coil of a pickup and for the whole, after the verdict on all.
std::string verdict_page(const PickupDiagnosis&, const Rules&);

/// One line: what is known now and what is measured next; `next` is empty where nothing is.
std::string progress_line(const Diagnosis&, const Rules&, const std::string& next);

} // namespace coilward
