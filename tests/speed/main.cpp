#include "decoder_speed.h"

#include <exception>
#include <iostream>

#include <benchmark/benchmark.h>

int main(int count, char** words) try {
    benchmark::Initialize(&count, words);
    if (benchmark::ReportUnrecognizedArguments(count, words)) return 2;
    coilward::add_decoder_rows();
    benchmark::RunSpecifiedBenchmarks();
    benchmark::Shutdown();
    return 0;

} catch (const std::exception& error) {

    std::cerr << "speed: " << error.what() << '\n';
    return 1;
}
