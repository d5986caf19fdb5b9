# shellcheck shell=bash
# Sourced by tests/sanitize/run and tests/fuzz/run: both use one build by clang, with the address and undefined-behaviour
# sanitizers, the fuzzers' instruments and a count of the lines that run, so that nothing is compiled twice.

sanitized_build=build/sanitized

# build_sanitized TARGET...
build_sanitized() {
    local log=$sanitized_build/build.log
    need_packages "${build_packages[@]}" clang llvm libclang-rt-dev libgtest-dev libgmock-dev
    mkdir -p $sanitized_build
    cmake -S . -B $sanitized_build -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_COMPILER=clang++ \
        -DCOILWARD_FUZZERS=ON -DCOILWARD_FUZZERS_WITH=address,undefined -DCOILWARD_COVERAGE=ON >$log 2>&1 ||
        stop "cmake failed: $(grep -m1 -A3 'CMake Error' $log | tr '\n' ' ')"
    ninja -C $sanitized_build "$@" >$log 2>&1 || {
        grep -E -A4 'error:|FAILED' $log | head -n 40 >&2
        stop "the build failed; see $log"
    }
}
