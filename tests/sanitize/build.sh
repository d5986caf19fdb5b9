# shellcheck shell=bash
# Sourced by tests/sanitize/run and tests/fuzz/run, after src/building.sh: both use one build by clang, with the address and
# undefined-behaviour sanitizers, the fuzzers' instruments and a count of the lines that run, so that nothing is compiled
# twice.

sanitized_build=build/sanitized

# A build type of our own: what takes the compiler long helps little under sanitizers.
checked=(-DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=Checked
    "-DCMAKE_CXX_FLAGS_CHECKED=-O1 -DNDEBUG -gline-tables-only")

# build_sanitized "TARGET..."
build_sanitized() {
    need_packages "${build_packages[@]}" clang llvm libclang-rt-dev libgtest-dev libgmock-dev
    build_in $sanitized_build "$1" "${checked[@]}" -DCOILWARD_FUZZERS=ON -DCOILWARD_FUZZERS_WITH=address,undefined \
        -DCOILWARD_COVERAGE=ON
}
