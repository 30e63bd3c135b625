#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Sees that the pictures of the user guide are those that the pictures program makes, and small enough.
# usage: pictures_listed.sh PICTURES_PROGRAM FOLDER
set -euo pipefail
program=$1 folder=$2
diff <("$program" --list | sort) <(cd "$folder" && ls -- *.png | sort) || {
    echo "make them anew with: harpkeep_pictures --out docs/user/pictures"
    exit 1
}
large=$(find "$folder" -name '*.png' -size +150k)
[ -z "$large" ] || { echo "over 150 kB: $large"; exit 1; }
total=$(du -cb "$folder"/*.png | tail -1 | cut -f1)
[ "$total" -lt 4000000 ] || { echo "together $total bytes, over 4 MB"; exit 1; }
