#!/bin/bash
# SPDX-License-Identifier: MIT
# Installs into a folder of its own and looks whether all is there and true.
# usage: install_test.sh CMAKE BUILD_FOLDER PROGRAM
set -euo pipefail
cmake=$1 build=$2 program=$3
prefix=$(mktemp -d)
trap 'rm -rf "$prefix"' EXIT
"$cmake" --install "$build" --prefix "$prefix" >/dev/null

for file in bin/harpkeep share/man/man1/harpkeep.1.gz share/bash-completion/completions/harpkeep \
    share/zsh/vendor-completions/_harpkeep share/applications/harpkeep.desktop \
    share/icons/hicolor/scalable/apps/harpkeep.svg share/icons/hicolor/48x48/apps/harpkeep.png \
    share/doc/harpkeep/README.md share/doc/harpkeep/copyright share/doc/harpkeep/docs/user/live.md; do
    [ -s "$prefix/$file" ] || { echo "not installed: $file" >&2; exit 1; }
done
"$prefix/bin/harpkeep" --version
# Manual and completions are those of this very program.
diff <(gzip -dc "$prefix/share/man/man1/harpkeep.1.gz") <("$program" manual)
diff "$prefix/share/bash-completion/completions/harpkeep" <("$program" completion bash)
diff "$prefix/share/zsh/vendor-completions/_harpkeep" <("$program" completion zsh)
bash -n "$prefix/share/bash-completion/completions/harpkeep"
grep -q 'report' <(gzip -dc "$prefix/share/man/man1/harpkeep.1.gz")
# The desktop entry starts what was installed and shows an icon that is there.
[ -x "$prefix/bin/$(sed -n 's/^Exec=//p' "$prefix/share/applications/harpkeep.desktop")" ]
[ -s "$prefix/share/icons/hicolor/48x48/apps/$(sed -n 's/^Icon=//p' "$prefix/share/applications/harpkeep.desktop").png" ]
