#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Measures how the window behaves, on a fresh virtual display of 1280x800 drawn by llvmpipe: time to the first frame,
# processor time while nothing happens, frames a second of a live check. Figures of processor time (CPU) hold on a busy
# computer too, the others only on a quiet one.
# usage: scripts/measure_window.sh [BUILD_FOLDER]
set -euo pipefail
cd "$(dirname "$0")/.."
source scripts/virtual_display.sh
build=${1:-build}
program=$build/ui/dashboard/harpkeep_example_window
work=$(mktemp -d)
cleanup() {
    [ -n "${window_pid:-}" ] && kill "$window_pid" 2>/dev/null || true
    [ -n "${server_pid:-}" ] && kill "$server_pid" 2>/dev/null || true
    rm -rf "$work"
}
trap cleanup EXIT

open_display 1280x800 "$work"

cpu_ticks() { awk '{ print $14 + $15 }' "/proc/$1/stat"; }

"$program" --folder "$work/school" --close-after 1 >/dev/null # makes the school
for i in 1 2 3; do
    echo "start $i: $("$program" --folder "$work/school" --close-after 1)"
done

"$program" --folder "$work/school" --close-after 30 >/dev/null &
window_pid=$!
sleep 6 # opened, and its first messages gone
begin=$(cpu_ticks "$window_pid")
sleep 20
end=$(cpu_ticks "$window_pid")
echo "idle: $(awk -v t=$((end - begin)) -v hz="$(getconf CLK_TCK)" 'BEGIN { printf "%.2f", 100 * t / hz / 20 }') % of a core over 20 s"
wait "$window_pid"
window_pid=""

echo "live check: $("$program" --folder "$work/school" --live --close-after 10)"
echo "drawn off screen as fast as it goes:"
"$build/ui/dashboard/harpkeep_pictures" --measure
