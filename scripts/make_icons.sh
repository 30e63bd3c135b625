#!/bin/bash
# SPDX-License-Identifier: MIT
# Renders assets/harpkeep.svg to the sizes that desktops ask for, into assets/icons. Run it after the drawing changed;
# the pictures are kept in the repository so that a build needs no renderer (package librsvg2-bin).
set -euo pipefail
cd "$(dirname "$0")/.."
for size in 16 24 32 48 64 128 256; do
    mkdir -p assets/icons
    rsvg-convert --width "$size" --height "$size" --output "assets/icons/harpkeep-$size.png" assets/harpkeep.svg
done
