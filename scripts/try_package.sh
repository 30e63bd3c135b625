#!/bin/bash
# SPDX-License-Identifier: MIT
# Installs the Debian package in a clean Debian 12 and runs it there: version, demonstration, check, a printed sheet.
# Needs root, debootstrap and a mirror. usage: scripts/try_package.sh PACKAGE.deb [FOLDER]
set -euo pipefail
package=$(realpath "${1:?usage: scripts/try_package.sh PACKAGE.deb [FOLDER]}")
root=${2:-$(mktemp -d)}

[ -e "$root/bin/sh" ] || debootstrap --variant=minbase bookworm "$root"
cp "$package" "$root/tmp/harpkeep.deb"
inside() { chroot "$root" env DEBIAN_FRONTEND=noninteractive LC_ALL=C.UTF-8 "$@"; }
inside apt-get -q update
inside apt-get -q -y install --no-install-recommends /tmp/harpkeep.deb
inside harpkeep --version
inside rm -rf /tmp/demo
inside harpkeep demo /tmp/demo
inside harpkeep check /tmp/demo/heron.flac --harp Heron --ledger /tmp/demo/larkmoor.harpkeep
inside harpkeep verdict --harp Heron --ledger /tmp/demo/larkmoor.harpkeep
inside harpkeep report technician --harp Heron --ledger /tmp/demo/larkmoor.harpkeep --out /tmp/demo/heron.pdf
inside sh -c 'head -c 5 /tmp/demo/heron.pdf | grep -q "%PDF-"'
echo "the package works in $root"
