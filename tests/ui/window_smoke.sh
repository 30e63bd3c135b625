#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Opens the real window on a fresh virtual display, presses keys and buttons, and sees that it goes on and ends well.
# Usage: window_smoke.sh PROGRAM
set -euo pipefail
source "$(dirname "$0")/../../scripts/virtual_display.sh"
program=$1
work=$(mktemp -d)
cleanup() {
    [ -n "${window_pid:-}" ] && kill "$window_pid" 2>/dev/null || true
    [ -n "${server_pid:-}" ] && kill "$server_pid" 2>/dev/null || true
    rm -rf "$work"
}
trap cleanup EXIT

open_display 1400x900 "$work"
export ASAN_OPTIONS=${ASAN_OPTIONS:-}:detect_leaks=0

"$program" --folder "$work/school" --close-after 20 >"$work/out" 2>"$work/err" &
window_pid=$!
window=""
for _ in $(seq 600); do
    window=$(xdotool search --name '^harpkeep$' 2>/dev/null | head -1) && [ -n "$window" ] && break
    sleep 0.1
done
[ -n "$window" ] || { echo "no window appeared"; cat "$work/err"; exit 1; }
sleep 1
xdotool mousemove --window "$window" 90 180 click 1
for key in ctrl+4 Tab Tab Return Escape; do xdotool key --delay 60 "$key"; done
# A busy computer may still be on its way to the first frame, which takes no keys.
for _ in $(seq 8); do
    xdotool key --delay 60 ctrl+t
    sleep 1
    grep -qs '^theme dark$' "$work/state/harpkeep/window.conf" && break
done
for key in ctrl+equal F1 Escape ctrl+comma ctrl+1 F5; do xdotool key --delay 60 "$key"; done
sleep 1
import -display "$DISPLAY" -window root "$work/screen.png"
colours=$(identify -format '%k' "$work/screen.png")
wait "$window_pid"
window_pid=""
cat "$work/out" "$work/err"
[ "$colours" -gt 50 ] || { echo "the window stayed empty: $colours colours"; exit 1; }
grep -q '^theme dark$' "$work/state/harpkeep/window.conf" || { echo "the theme chosen by keys was not kept"; exit 1; }
grep -q 'first frame after' "$work/out" || { echo "the window did not end by itself"; exit 1; }
