#!/bin/sh
# Installs the missing Debian packages for the purposes named: sh .ci/install.sh build tests
# Purposes and packages stand in .ci/packages. Needs root or sudo only if something is missing.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
log=${TMPDIR:-/tmp}/flangewright-install-$(id -u).log

wanted() {
    for purpose in "$@"; do
        sed -n "s/^$purpose  *//p" "$here/packages"
    done
}

is_installed() {
    dpkg-query -W -f '${Status}' "$1" 2>/dev/null | grep -q '^install ok installed'
}

missing=
for package in $(wanted "$@"); do
    is_installed "$package" || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

if ! command -v apt-get >/dev/null; then
    echo "These Debian packages (or your system's equals) are needed and there is no apt-get:" >&2
    echo " $missing" >&2
    exit 1
fi
as_root=
if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null; then
        echo "Packages are missing and neither root nor sudo is at hand. As root, run:" >&2
        echo "  apt-get install$missing" >&2
        exit 1
    fi
    as_root=sudo
fi

echo "Installing from Debian:$missing"
apt() {
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=300 \
        -o Acquire::Retries=3 "$@" </dev/null >>"$log" 2>&1
}
: >"$log"
# shellcheck disable=SC2086 # a list of words
if ! { apt update && apt install -y --no-install-recommends $missing; }; then
    tail -n 20 "$log" >&2
    echo "Installing failed; the whole log is $log" >&2
    exit 1
fi
