#!/bin/sh
# Runs mutants on a copy of the checkout, where nothing else can be written (Linux, as root):
#
#     tests/mutation/isolated.sh report --jobs 1 --most 30
#
# The namespaces for it end with the run. Only the folder build is written outside the copy: it
# keeps which tests reach which lines. The checkout may be edited meanwhile.
set -eu
CHECKOUT="$(cd "$(dirname "$0")/../.." && pwd)"
export CHECKOUT
mkdir -p "$CHECKOUT/build"
exec unshare --mount --pid --fork --kill-child --mount-proc sh -eu -c '
    mount -t tmpfs own /tmp
    mount -t tmpfs own /dev/shm
    mkdir -p /tmp/copy/build /tmp/copy/.venv
    cd "$CHECKOUT"
    for entry in * .ci .git .gitignore; do
        case "$entry" in build) ;; *) cp -a "$entry" /tmp/copy/ ;; esac
    done
    mount --bind "$CHECKOUT/build" /tmp/copy/build
    mount --bind "$CHECKOUT/.venv" /tmp/copy/.venv
    mount -o remount,bind,ro /tmp/copy/.venv
    mount --rbind /tmp/copy "$CHECKOUT"
    mount -o remount,bind,ro /
    cd "$CHECKOUT/tests"
    exec env HOME=/tmp ../.venv/bin/python -B -m mutation.run "$@"
' sh "$@"
