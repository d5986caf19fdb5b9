# shellcheck shell=bash
# Sourced, after packages.sh, by every script that builds.

# build_in FOLDER "TARGET..." CMAKE_OPTION...: those targets ("all" for all) in a build folder; where that fails, what the
# compiler said first, and one line. Rooms are compiled a dozen files at a time, since most of a file's time goes into what it
# includes.
build_in() {
    local folder=$1 targets log=$1/build.log
    read -ra targets <<<"$2"
    shift 2
    mkdir -p "$folder"
    cmake -S . -B "$folder" -G Ninja -DCMAKE_UNITY_BUILD=ON "$@" >"$log" 2>&1 ||
        stop "cmake failed: $(grep -m1 -A3 'CMake Error' "$log" | tr '\n' ' '); see $log"
    ninja -C "$folder" "${targets[@]}" >"$log" 2>&1 || {
        grep -E -A4 'error:|FAILED' "$log" | head -n 40 >&2
        stop "the build failed; see $log"
    }
}
