# shellcheck shell=bash
# SPDX-License-Identifier: MIT
# Sourced by what opens the window where there is no screen.

# open_display WIDTHxHEIGHT FOLDER: a fresh virtual display, drawn by software, for what runs from now on; `server_pid` is
# to be ended by the caller. Fresh for each run: a property left behind by an ended window manager aborts GLFW 3.3.8.
open_display() {
    Xvfb -displayfd 3 -screen 0 "$1x24" 3>"$2/display" 2>"$2/server.log" &
    server_pid=$!
    local _
    for _ in $(seq 600); do
        [ -s "$2/display" ] && break
        sleep 0.1
    done
    [ -s "$2/display" ] || { echo "no virtual display came up"; cat "$2/server.log"; exit 1; }
    DISPLAY=:$(cat "$2/display")
    export DISPLAY XDG_STATE_HOME=$2/state LIBGL_ALWAYS_SOFTWARE=1
}
