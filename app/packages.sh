# SPDX-License-Identifier: MIT
# shellcheck shell=bash
# The one list of what this project needs from Debian 12, and how the scripts get it.
# Sourced by app/start, tests/all and the other scripts of tests; does nothing by itself.

# What building and running the program takes.
buildPackages=(
    g++ cmake ninja-build pkg-config
    qt6-base-dev
    libgdal-dev libproj-dev proj-data libsqlite3-dev
    libeigen3-dev libboost-dev liblbfgspp-dev
    libexpected-dev libcli11-dev nlohmann-json3-dev
    fonts-dejavu-core
)

# What the tests call beside that: GDAL's own validators, a PDF reader, the sanitizers' compiler,
# a display without a screen, a tracer of system calls.
testPackages=(
    ccache libgtest-dev libgmock-dev libbenchmark-dev
    gdal-bin python3-gdal sqlite3 poppler-utils
    xvfb xauth strace
    clang-14 libclang-rt-14-dev
)

# What `tests/bench/compare` measures beside us, and what it measures with.
peerPackages=(
    r-base-core r-cran-sp r-cran-gstat gmt
    gdal-bin python3-gdal python3-numpy python3-scipy
    time
)

# What `tests/tidy` calls.
lintPackages=(clang-tidy-14 clang-format-14)

# What `tests/coverage` counts lines with.
coveragePackages=(gcovr)

# Prints those of its arguments that are not installed.
missingPackages() {
    local package
    for package in "$@"; do
        if [[ $(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null) != installed ]]; then
            printf '%s\n' "$package"
        fi
    done
}

# Installs those of its arguments that are missing: as root, or through sudo. Says what it needs
# where it cannot, and leaves a system without apt alone.
installMissing() {
    if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
        echo "This is not a Debian system: the packages named in app/packages.sh must be there." >&2
        return 0
    fi
    local missing=()
    mapfile -t missing < <(missingPackages "$@")
    if ((${#missing[@]} == 0)); then
        return 0
    fi
    local asRoot=()
    if ((EUID != 0)); then
        if ! command -v sudo >/dev/null; then
            echo "Missing packages: ${missing[*]}" >&2
            echo "Install them as root (apt-get install ${missing[*]}) and start again." >&2
            return 3
        fi
        asRoot=(sudo)
    fi
    echo "Installing ${missing[*]} …" >&2
    local log
    log=$(mktemp)
    if ! {
        "${asRoot[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -qq update &&
            "${asRoot[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -qq -y install \
                --no-install-recommends "${missing[@]}"
    } >"$log" 2>&1; then
        tail -n 30 "$log" >&2
        rm -f "$log"
        echo "The packages could not be installed." >&2
        return 3
    fi
    rm -f "$log"
}

# How many compilers at once: one for each core, as long as each has 1.5 GB of memory.
buildJobs() {
    local cores memory
    cores=$(nproc)
    memory=$(awk '/^MemAvailable/ { print int($2 / 1500000) }' /proc/meminfo)
    ((memory < 1)) && memory=1
    echo $((cores < memory ? cores : memory))
}
