#!/bin/sh
# Restores the lettering fonts (OFL-1.1, as pinned in package-lock.json) into fonts/node_modules.
# Without npm it says so and leaves the work to Inter, which the build itself brings, and to the fonts of the system.
# Nothing of the packages is run (--ignore-scripts); a second call with nothing changed returns at once.
set -eu
cd "$(dirname "$0")"
stamp=node_modules/.restored
if [ -f "$stamp" ] && cmp -s package-lock.json "$stamp"; then
    exit 0
fi
if ! command -v npm >/dev/null 2>&1; then
    echo "Fonts: npm is not on this machine, so lettering has Inter and the system's fonts only." >&2
    exit 0
fi
if npm ci --ignore-scripts --no-audit --no-fund --loglevel=error >&2; then
    cp package-lock.json "$stamp"
else
    echo "Fonts: npm could not restore them, so lettering has Inter and the system's fonts only. Run fonts/restore.sh again later." >&2
fi
