#!/bin/sh
# Installs what Qt and the tests want from the system, where that may be done:
#   sh resources/packaging/prepare.sh           what the window and a sheet as PDF load
#   sh resources/packaging/prepare.sh tests     and what the tests load beside it
# On Debian and Ubuntu, as root or with sudo, it installs what is missing. Elsewhere it names what
# is wanted and goes on: a desktop mostly has all of it.
set -eu

# Qt loads these even without a screen.
packages="libglib2.0-0 libegl1 libgl1 libopengl0 libxkbcommon-x11-0 libxcb-cursor0 libxcb-icccm4
    libxcb-image0 libxcb-keysyms1 libxcb-randr0 libxcb-render-util0 libxcb-shape0 libxcb-xinerama0
    libxcb-xkb1 libdbus-1-3 libfontconfig1 fontconfig fonts-dejavu-core"
# A real display, and the circuit simulator that whole traces are held against.
[ "${1:-}" = tests ] && packages="$packages xvfb ngspice"

if ! command -v dpkg-query >/dev/null 2>&1; then
    echo "If Qt does not open: it wants the system's libraries for EGL, OpenGL, xkbcommon, xcb," \
        "D-Bus, GLib and fontconfig, and a font." >&2
    exit 0
fi

installed() {
    # Newer systems give libraries with 64-bit times a name of their own.
    for name in "$1" "${1}t64"; do
        state=$(dpkg-query -W -f '${Status}' "$name" 2>/dev/null || true)
        [ "$state" = "install ok installed" ] && return 0
    done
    return 1
}

missing=""
for package in $packages; do
    installed "$package" || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

if [ "$(id -u)" -eq 0 ]; then
    as_root=""
elif command -v sudo >/dev/null 2>&1; then
    as_root="sudo"
else
    echo "Please have these installed:$missing" >&2
    exit 0
fi
echo "Installing$missing"
$as_root apt-get update -qq
# shellcheck disable=SC2086
DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends \
    $missing >/dev/null
