#!/bin/sh
# Checks the job files of a repository, on any build server that runs a shell and shows JUnit results.
#   JOBS     files and folders, parted by blanks
#   PACKS    data packs to install, as pip names them, parted by blanks
#   OPTIONS  further options of barwright check, like --require no-cuts
#   RESULTS  the file that the build server shows
set -eu
JOBS="${JOBS:-jobs}" PACKS="${PACKS:-}" OPTIONS="${OPTIONS:-}" RESULTS="${RESULTS:-barwright.xml}"

# A machine that has it, in an image of your own, installs nothing.
if ! command -v barwright > /dev/null; then
    python3 -m venv .barwright
    PATH="$PWD/.barwright/bin:$PATH"
    pip install 'barwright[cli]' $PACKS
fi

if barwright check --form junit --output "$RESULTS" $OPTIONS -- $JOBS; then
    exit 0
else
    code=$?  # 1: an answer is no, 2: a file is bad, 3: the program or a pack is at fault
fi
barwright check --quiet $OPTIONS -- $JOBS || true  # why, for the log of the build
exit "$code"
