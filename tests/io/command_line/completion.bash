# What bash makes of the program's offers when a user presses tab. That these know every command and
# option is tested in test_completion.cpp. bash completion.bash PROGRAM COMPLETION_FILE SHEET.toml
set -u
program=$1
# shellcheck source=/dev/null
. "$2"

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1
mkdir parts own
: >bracket.toml
: >strip.csv
: >photo.png
ln -s "$program" flangewright
sed 's/^name = .*/name = "zz own"/' "$3" >own/own.toml
export HOME=$folder XDG_CONFIG_HOME=$folder/.config

failed=0
# expect "a|b" WORD... : exactly these are offered for the last word, whatever their order
expect() {
    local wanted found
    wanted=$(tr '|' '\n' <<<"$1" | sort)
    shift
    COMP_WORDS=(./flangewright "$@")
    COMP_CWORD=$#
    COMPREPLY=()
    _flangewright
    found=$([[ ${#COMPREPLY[@]} -eq 0 ]] || printf '%s\n' "${COMPREPLY[@]}" | sort)
    [[ $found == "$wanted" ]] || {
        printf 'fault: flangewright %s\noffers: %s\nwanted: %s\n' "$*" "${found//$'\n'/|}" \
            "${wanted//$'\n'/|}"
        failed=1
    }
}

expect "run" ru
expect "" nonsense ''
expect "bracket.toml|own|parts" check ''
expect "--threads" run bracket.toml --th
expect "parts" run --out = pa
expect "own|parts" run --sheets ''
expect "own|parts|photo.png" materials --picture ''
expect "2024-O\\ clad" materials '2024-O\ c'
expect "2024-O clad" materials '"2024-O c'
expect "zz\\ own" materials --sheets own zz
[[ $failed -eq 0 ]] && echo "bash offers what the program knows"
exit $failed
