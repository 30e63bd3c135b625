#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Measures how the window behaves, on a fresh virtual display of 1280x800 drawn by llvmpipe: time to the first frame,
# processor time while nothing happens, frames a second of a live check. Figures of processor time (CPU) hold on a busy
# computer too, the others only on a quiet one.
# usage: scripts/measure_window.sh [BUILD_FOLDER]
set -euo pipefail
cd "$(dirname "$0")/.."
build=${1:-build}
program=$build/ui/dashboard/harpkeep_example_window
work=$(mktemp -d)
cleanup() {
    [ -n "${window_pid:-}" ] && kill "$window_pid" 2>/dev/null || true
    [ -n "${server_pid:-}" ] && kill "$server_pid" 2>/dev/null || true
    rm -rf "$work"
}
trap cleanup EXIT

Xvfb -displayfd 3 -screen 0 1280x800x24 3>"$work/display" 2>"$work/server.log" &
server_pid=$!
for _ in $(seq 600); do
    [ -s "$work/display" ] && break
    sleep 0.1
done
[ -s "$work/display" ] || { echo "no virtual display came up"; cat "$work/server.log"; exit 1; }
DISPLAY=:$(cat "$work/display")
export DISPLAY XDG_STATE_HOME=$work/state LIBGL_ALWAYS_SOFTWARE=1

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
