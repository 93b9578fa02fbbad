#!/bin/sh
# Kills a run at random moments, goes on with --resume, and compares what it ends with.
# Usage: sh kill.sh <program> <case file> <folder to work in> <number of kills> [seed]
# By hand: 30 kills. Passes when every resumed run ends within 1e-6 of the uninterrupted one and no
# kill leaves a half-written file.
set -eu
program=$1
case_file=$2
place=$3
n_kills=$4
seed=${5:-1}

rm -rf "$place"
mkdir -p "$place"

now() { date +%s%N; }
fail() { echo "FAILED (seed $seed): $*" >&2; exit 1; }

# run <folder> [--resume]
run() {
    folder=$1
    shift
    "$program" run "$case_file" --out "$folder" --threads 1 --no-pictures "$@"
}

# Every file is whole, but for the growing log and trial files under their hidden names.
check_whole() {
    find "$1" -type f ! -name '.*.part' ! -name run.log.part | while read -r file; do
        case $file in
        *.json) tail -c 2 "$file" | grep -q '}' ;;
        *.vtu | *.pvd) tail -c 20 "$file" | grep -q '</VTKFile>' ;;
        *.html) tail -c 20 "$file" | grep -q '</html>' ;;
        *.pdf) tail -c 10 "$file" | grep -aq '%%EOF' ;;
        *.csv | *.log) [ "$(tail -c 1 "$file" | wc -l)" -eq 1 ] ;;
        */run.state)
            head_size=$(head -n 1 "$file" | wc -c)
            body=$(od -An -t u8 -j "$head_size" -N 8 "$file" | tr -d ' ')
            [ "$(wc -c <"$file")" -eq $((head_size + 16 + body)) ]
            ;;
        *) false ;;
        esac || { echo "half-written or unknown: $file" >&2; exit 1; }
    done
}

# Numbers of a file one a line, but for what each run has of its own.
numbers() {
    sed '/"seconds_in"/,/}/d' "$1" | grep -vE 'seconds|"date"|"file"|"version"' |
        grep -oE '[-+]?[0-9]+(\.[0-9]+)?([eE][-+]?[0-9]+)?'
}

# Largest relative difference of the numbers of two files; "differs" when they have other counts.
difference() {
    numbers "$1" >"$place/a"
    numbers "$2" >"$place/b"
    paste "$place/a" "$place/b" | awk '
        NF != 2 { print "differs"; exit_now = 1; exit }
        { d = $1 - $2; if (d < 0) d = -d
          s = $1 < 0 ? -$1 : $1; if (s < 1e-9) s = 1e-9
          if (d / s > most) most = d / s }
        END { if (!exit_now) printf "%.3g\n", most }'
}

compare() {
    for name in summary.json stations.csv edge.csv; do
        d=$(difference "$place/whole/$name" "$1/$name")
        [ "$d" != differs ] || fail "$name has other values than the uninterrupted run"
        awk -v d="$d" -v most="$worst" 'BEGIN { exit !(d > most) }' && worst=$d
    done
    awk -v d="$worst" 'BEGIN { exit !(d <= 1e-6) }' || fail "differs by $worst"
    [ "$(find "$1/history" "$1/steps" -name '*.vtu' | wc -l)" -eq \
        "$(find "$place/whole/history" "$place/whole/steps" -name '*.vtu' | wc -l)" ] ||
        fail "other fields than the uninterrupted run"
}

begin=$(now)
run "$place/whole" >"$place/whole.answer" 2>&1 || { cat "$place/whole.answer"; fail "the run"; }
whole_ms=$((($(now) - begin) / 1000000))
echo "uninterrupted: $whole_ms ms; seed $seed"

# Random shares of the run's time, enough of them.
awk -v seed="$seed" 'BEGIN { srand(seed); for (i = 0; i < 100000; ++i) printf "%.4f\n", rand() }' \
    >"$place/dice"
exec 3<"$place/dice"

killed=0
resumed=0
trial=0
worst=0
while [ "$killed" -lt "$n_kills" ]; do
    trial=$((trial + 1))
    out=$place/trial
    rm -rf "$out"
    option=
    while :; do
        read -r share <&3
        seconds=$(awk -v s="$share" -v ms="$whole_ms" 'BEGIN { printf "%.3f", s * 1.1 * ms / 1000 }')
        # shellcheck disable=SC2086 # one word or none
        "$program" run "$case_file" --out "$out" --threads 1 --no-pictures $option \
            >"$place/answer" 2>&1 &
        child=$!
        sleep "$seconds"
        kill -9 "$child" 2>/dev/null || true
        code=0
        wait "$child" 2>/dev/null || code=$?
        [ -d "$out" ] && { check_whole "$out" || fail "after a kill at $seconds s"; }
        option=--resume
        if [ "$code" -eq 137 ]; then
            killed=$((killed + 1))
            [ "$killed" -lt "$n_kills" ] || break
        elif [ "$code" -eq 0 ]; then
            break
        else
            cat "$place/answer" >&2
            fail "exit code $code"
        fi
    done
    if [ "$code" -ne 0 ]; then
        run "$out" --resume >"$place/answer" 2>&1 || { cat "$place/answer" >&2; fail "resuming"; }
    fi
    if grep -q '^going on:' "$place/answer"; then
        resumed=$((resumed + 1))
    fi
    check_whole "$out" || fail "at the end"
    [ -z "$(find "$out" -name '*.part')" ] || fail "a trial file is left: $(find "$out" -name '*.part')"
    compare "$out"
done
echo "$killed kills in $trial runs, $resumed of them ended from a saved state;" \
    "largest relative difference $worst"
[ "$resumed" -gt 0 ] || fail "no run ever went on from a saved state"
