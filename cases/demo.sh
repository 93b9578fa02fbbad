#!/bin/sh
# From nothing to a formed flange: installs what is missing, builds, runs the demo case.
# Usage: sh cases/demo.sh [folder for the results]
set -eu
cd "$(dirname "$0")/.."

build=.build/demo
log=$build.log
out=${1:-out/demo}

echo "flangewright demo: a J-section former, from flat blank over trim, anneal and lip to heat treatment."
echo
sh .ci/install.sh build pictures
mkdir -p "$build"
launcher=
if command -v ccache >/dev/null; then
    launcher=-DCMAKE_CXX_COMPILER_LAUNCHER=ccache
fi
echo "Building the program. The first time takes some minutes; the log is $log"
if ! {
    cmake -C .ci/release.cmake -S . -B "$build" -G Ninja -DFLANGEWRIGHT_TESTS=OFF $launcher &&
        cmake --build "$build" --target flangewright
} >"$log" 2>&1; then
    tail -n 40 "$log" >&2
    echo "Building failed; the whole log is $log" >&2
    exit 1
fi

program=$(find "$build" -type f -name flangewright -perm -u+x | head -n 1)
echo "Running: $program run cases/demo/case.toml --out $out"
echo
code=0
"$program" run cases/demo/case.toml --out "$out" || code=$?
if [ "$code" -ne 0 ]; then
    echo "The run ended with code $code; what was reached is in $out" >&2
    exit "$code"
fi
cat <<END

The results are in $out
  sheet.html     the page for the build log: open it in a browser, print it
  pictures/      the formed part
  summary.json   all figures; stations.csv and edge.csv: along the bend line
  history.pvd    the whole path, for ParaView
Now copy cases/demo/case.toml, put in your own sizes, and run
  $program run YOUR_CASE.toml --out YOUR_FOLDER
END
