#!/usr/bin/env bash
# Installs what the tests need on Debian when it may, then runs all of them and closes with the plain line "N passed, N failed, N skipped".
#   ./test.sh                       everything
#   ./test.sh --filter-class '*Sheet*'   a part: options of the test platform are passed on
set -uo pipefail
cd "$(dirname "$0")" || exit 2

needed=()
want() { command -v "$1" >/dev/null 2>&1 || needed+=("$2"); }
want qpdf qpdf
want gs ghostscript
want pdftoppm poppler-utils
want rsvg-convert librsvg2-bin
want convert imagemagick
want hb-shape libharfbuzz-bin
want fribidi libfribidi-bin
want fc-scan fontconfig
want chromium-headless-shell chromium-headless-shell
[ -n "$(ls -d /usr/lib/postgresql/*/bin 2>/dev/null)" ] || needed+=(postgresql)
[ -d /usr/share/fonts/truetype/dejavu ] || needed+=(fonts-dejavu-core)
# Drawings of the tests name a face that two renderers have to find alike.
[ -n "$(ls -d /usr/share/fonts/truetype/liberation* 2>/dev/null)" ] || needed+=(fonts-liberation)
if [ ${#needed[@]} -gt 0 ]; then
    if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
        echo "test.sh: installing ${needed[*]}"
        apt-get update -qq >/dev/null 2>&1
        DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${needed[@]}" >/dev/null 2>&1 ||
            echo "test.sh: could not install ${needed[*]}; the tests that need them are skipped."
    else
        echo "test.sh: without ${needed[*]} some tests are skipped."
    fi
fi
[ -x fonts/restore.sh ] && fonts/restore.sh

prepared=$SECONDS
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
dotnet tool restore >/dev/null && dotnet csharpier check . || { echo "test.sh: run 'dotnet csharpier format .'"; echo "0 passed, 1 failed"; exit 1; }
dotnet build Coldpeel.slnx --nologo -v quiet -clp:NoSummary || { echo "test.sh: the build failed."; echo "0 passed, 1 failed"; exit 1; }
built=$SECONDS

# Two at a time, the longest first: the last part to end would otherwise run alone on one core. The slowest of each part are told.
# Without colours, whatever the terminal is taken for: the sums are read from what is told.
logs=$(mktemp -d)
part() {
    local name=$1 code
    shift
    "artifacts/bin/Coldpeel.$name.Tests/debug/Coldpeel.$name.Tests" --no-ansi --progress off --show-slowest-tests 12 ${1:+--ignore-exit-code 8} "$@" >"$logs/$name" 2>&1
    code=$?
    echo "$code" >"$logs/code.$name"
    echo "== $name"
    cat "$logs/$name"
}
for name in Hosts Desk Files Craft Workshop; do
    while [ "$(jobs -rp | wc -l)" -ge 2 ]; do wait -n; done
    part "$name" "$@" &
done
wait
rc=0
for code in "$logs"/code.*; do [ "$(cat "$code")" = 0 ] || rc=1; done
n() { cat "$logs"/[A-Z]* | sed -nE "s/^ *$1: *([0-9]+).*/\1/p" | awk '{ sum += $1 } END { print sum + 0 }'; }
echo "test.sh: prepared in $prepared s, built in $((built - prepared)) s, tested in $((SECONDS - built)) s."
echo "$(n succeeded) passed, $(n failed) failed, $(n skipped) skipped"
rm -rf "$logs"
exit "$rc"
