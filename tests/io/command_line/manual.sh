#!/bin/sh
# The manual page as man shows it: sh manual.sh PROGRAM PAGE.gz
# Exit code 77: man is not installed.
set -eu
program=$1
page=$2
command -v man >/dev/null || { echo "man is not installed"; exit 77; }
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

zcat "$page" >"$folder/flangewright.1"
"$program" --man-page | cmp - "$folder/flangewright.1" || { echo "the page is not this program's"; exit 1; }
LC_ALL=C.UTF-8 MANWIDTH=100 man --warnings=w -l "$folder/flangewright.1" >"$folder/shown" 2>"$folder/objections"
if [ -s "$folder/objections" ]; then
    cat "$folder/objections"
    exit 1
fi
for word in NAME SYNOPSIS COMMANDS OPTIONS ENVIRONMENT CAUTIONS "flangewright run CASE" "\-\-help"; do
    grep -q -e "$word" "$folder/shown" || { echo "man does not show $word"; exit 1; }
done
