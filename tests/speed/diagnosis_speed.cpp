// One coil judged by all shipped rules, as a person waits for it, and the rules read before.

#include "diagnosis/diagnosis.h"
#include "documents.h"
#include "reading/examination_json.h"

#include <benchmark/benchmark.h>

namespace coilward {
namespace {

constexpr auto rules_folder = COILWARD_SOURCE_DIR "/rules";

void reading_the_rules(benchmark::State& state) {
    for (auto _ : state)
        benchmark::DoNotOptimize(load_rules(rules_folder));
}

void diagnosis_of(benchmark::State& state, const std::string& document) {
    const Rules rules = load_rules(rules_folder);
    const Examination examination = examination_from_json(document);
    for (auto _ : state)
        benchmark::DoNotOptimize(diagnose(rules, examination));
}

BENCHMARK(reading_the_rules)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(diagnosis_of, typical_readings, typical_document())->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(diagnosis_of, full_readings, full_document())->Unit(benchmark::kMillisecond);

} // namespace
} // namespace coilward
