#!/bin/sh
# Runs mutants on a copy of the checkout, where nothing else can be written (Linux, as root):
#
#     tests/mutation/isolated.sh report --jobs 1 --most 30
#
# The namespaces for it end with the run. Only the folder build is written outside the copy: it
# keeps which tests reach which lines. The checkout may be edited meanwhile.
set -eu
CHECKOUT="$(cd "$(dirname "$0")/../.." && pwd)"
TEMPORARY="$(dirname "$(mktemp -u)")"
COPY="$TEMPORARY/copy"
export CHECKOUT TEMPORARY COPY
mkdir -p "$CHECKOUT/build"
exec unshare --mount --pid --fork --kill-child --mount-proc sh -eu -c '
    mount -t tmpfs own "$TEMPORARY"
    mount -t tmpfs own /dev/shm
    mkdir -p "$COPY/build" "$COPY/.venv"
    cd "$CHECKOUT"
    for entry in * .ci .git .gitignore; do
        case "$entry" in build) ;; *) cp -a "$entry" "$COPY/" ;; esac
    done
    mount --bind "$CHECKOUT/build" "$COPY/build"
    mount --bind "$CHECKOUT/.venv" "$COPY/.venv"
    mount -o remount,bind,ro "$COPY/.venv"
    mount --rbind "$COPY" "$CHECKOUT"
    mount -o remount,bind,ro /
    cd "$CHECKOUT/tests"
    exec env HOME="$TEMPORARY" ../.venv/bin/python -B -m mutation.run "$@"
' sh "$@"
