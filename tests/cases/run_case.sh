#!/bin/sh
# Runs one case as a user would and looks at what is left.
# Usage: sh run_case.sh <program> <case file> <folder to write to> <threads>
set -eu
program=$1
case_file=$2
out=$3
threads=$4

rm -rf "$out"
mkdir -p "$(dirname "$out")"
"$program" run "$case_file" --out "$out" --threads "$threads"

for file in summary.json stations.csv edge.csv sheet.html history.pvd run.log; do
    [ -s "$out/$file" ] || { echo "missing or empty: $out/$file" >&2; exit 1; }
done
if grep -lwiE 'nan|-?inf' "$out"/*.json "$out"/*.csv; then
    echo "not a number in the file above" >&2
    exit 1
fi

# Every field file is opened by a reader that is not ours; Debian's own Python has it.
code=0
/usr/bin/python3 "$(dirname "$0")/../io/vtk/check_fields.py" "$out" || code=$?
[ "$code" -eq 0 ] || [ "$code" -eq 77 ] || exit 1
