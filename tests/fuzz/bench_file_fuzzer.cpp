// rules/bench.toml

#include "rules/bench_file.h"
#include "toml_input.h"

using namespace coilward;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    std::vector<Complaint> complaints;
    const auto source = toml_of_input(text_of_input(data, size), complaints);
    if (source) read_bench_file(*source, complaints);
    require_complaints(complaints, complaints.empty());
    return 0;
}
