// Reading a readings document, beside finding its lines and copying it.

#include "documents.h"
#include "plain_work.h"
#include "reading/examination_json.h"

namespace coilward {
namespace {

void reading_a_document(benchmark::State& state) {
    const std::string document = full_document();
    for (auto _ : state)
        benchmark::DoNotOptimize(examination_from_json(document));
    state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(document.size()));
}

BENCHMARK(reading_a_document);
BENCHMARK_CAPTURE(count_lines, of_a_document, full_document());
BENCHMARK_CAPTURE(copy_bytes, of_a_document, full_document());

} // namespace
} // namespace coilward
