#!/bin/sh
# Times one case: sh tests/bench/run.sh [times] [case file]
# Needs a built program (FLANGEWRIGHT_PROGRAM, else the one of .build/demo or .build/tests).
# target: wall <= 30 s, <= 1 GiB, wall <= 1.5 x iterations x bare refactorisation
set -eu
cd "$(dirname "$0")/../.."

times=${1:-3}
case_file=${2:-cases/stretch_flange/case.toml}
sh .ci/install.sh bench
program=${FLANGEWRIGHT_PROGRAM:-$(find .build/demo .build/tests -type f -name flangewright \
    -perm -u+x 2>/dev/null | head -n 1)}
[ -x "$program" ] || { echo "no program: run sh cases/demo.sh first" >&2; exit 1; }

place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT

# A number of summary.json by its section and key.
number() {
    sed -n "/\"$1\": *{/,/\"$2\": */p" "$place/out/summary.json" |
        sed -n "s/.*\"$2\": *\([-0-9.eE+]*\).*/\1/p" | head -n 1
}

echo "$program, $case_file, $(nproc) cores, $(date -u +%Y-%m-%d)"
printf '%4s %8s %8s %6s %6s %9s %9s %8s %7s %9s %9s %9s %8s\n' run elements unknowns iter cuts \
    'wall s' 'solve s' 'bare s' ratio 'element s' 'factor s' 'contact s' 'peak MB'
i=1
while [ "$i" -le "$times" ]; do
    rm -rf "$place/out"
    /usr/bin/time -f '%e %M' -o "$place/time" \
        "$program" run "$case_file" --out "$place/out" --no-pictures >"$place/log" 2>&1 ||
        { cat "$place/log" >&2; exit 1; }
    read -r wall peak <"$place/time"
    awk -v run="$i" -v wall="$wall" \
        -v n="$(number mesh elements)" -v dof="$(number solve degrees_of_freedom)" \
        -v it="$(number solve iterations)" -v cuts="$(number solve cutbacks)" \
        -v solve="$(number solve seconds)" -v bare="$(number solve refactor_seconds_bare)" \
        -v el="$(number seconds_in elements)" -v fac="$(number seconds_in factorise)" \
        -v con="$(number seconds_in contact)" -v peak="$peak" 'BEGIN {
            ratio = it * bare > 0 ? wall / (it * bare) : -1
            printf "%4d %8d %8d %6d %6d %9.1f %9.1f %8.4f %7.2f %9.1f %9.1f %9.1f %8.0f\n", run, n,
                dof, it, cuts, wall, solve, bare, ratio, el, fac, con, peak / 1024 }'
    i=$((i + 1))
done
