#!/bin/sh
# Installs what is missing, builds, and runs all tests. One command: sh tests/run.sh
# Further arguments go to CMake; FLANGEWRIGHT_BUILD names another build folder.
set -eu
cd "$(dirname "$0")/.."

build=${FLANGEWRIGHT_BUILD:-.build/tests}

mkdir -p "$(dirname "$build")"
sh .ci/install.sh build pictures tests
launcher=
if command -v ccache >/dev/null; then
    launcher=-DCMAKE_CXX_COMPILER_LAUNCHER=ccache
fi

echo "Configuring in $build"
cmake -C .ci/release.cmake -S . -B "$build" -G Ninja $launcher \
    -DFLANGEWRIGHT_FAST_BUILD=ON "$@" >"$build.log" 2>&1 || {
    cat "$build.log" >&2
    exit 1
}
echo "Building"
cmake --build "$build"
echo "Testing"
ctest --test-dir "$build" -j2 --output-on-failure
