# shellcheck shell=bash
# Sourced by src/quickstart and tests/run: installs missing Debian packages and stops with one clear line where that
# cannot be done.

stop() {
    echo "$0: $1" >&2
    exit 1
}

need_packages() {
    local missing=()
    local package
    for package in "$@"; do
        dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null | grep -qx installed || missing+=("$package")
    done
    if [ ${#missing[@]} -eq 0 ]; then
        echo "packages: all there"
        return
    fi
    command -v apt-get >/dev/null || stop "apt-get is not here; this needs Debian 12 or one of its kind"
    local as_root=()
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo >/dev/null || stop "not root and no sudo; as root run: apt-get install ${missing[*]}"
        as_root=(sudo)
    fi
    echo "packages: installing ${missing[*]}"
    local log
    log=$(mktemp)
    "${as_root[@]}" apt-get update -qq >"$log" 2>&1 ||
        echo "packages: the package list could not be renewed; going on with the one that is here"
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
        "${missing[@]}" >"$log" 2>&1 ||
        stop "cannot install ${missing[*]}: $(grep -m1 '^E:' "$log" || tail -n1 "$log")"
    rm -f "$log"
}

build_packages=(g++ cmake ninja-build pkg-config libfmt-dev nlohmann-json3-dev libcli11-dev
    libtomlplusplus-dev libeigen3-dev libsqlitecpp-dev libsqlite3-dev libserialport-dev libboost-math-dev libpqxx-dev libssl-dev
    libcpp-httplib-dev libspdlog-dev libjs-dygraphs)
