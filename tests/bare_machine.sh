#!/bin/sh
# The commands of README.md on a machine that has nothing: as root, with debootstrap installed,
#   sh tests/bare_machine.sh FOLDER           opens the window, writes the sheet as PDF in two languages
#   sh tests/bare_machine.sh FOLDER suite     and runs the whole test command
# FOLDER must not be there yet; a small Debian 12 is laid into it (about 2 GB at the end), with python3,
# python3-venv and ca-certificates alone. What this machine knows of certificates and of where
# packages come from is taken along.
set -eu
target=$1
cd "$(dirname "$0")/.."
[ ! -e "$target" ] || { echo "$target is there already" >&2; exit 1; }

debootstrap --variant=minbase --include=python3,python3-venv,ca-certificates bookworm "$target" >/dev/null
trap 'umount -R "$target/proc" "$target/dev" 2>/dev/null || true' EXIT
mount -t proc proc "$target/proc"
mount --rbind /dev "$target/dev"
mount --make-rslave "$target/dev"
mkdir "$target/gloaming"
cp -L --remove-destination /etc/resolv.conf "$target/etc/resolv.conf"
cp -L --remove-destination /etc/ssl/certs/ca-certificates.crt "$target/etc/ssl/certs/"
[ ! -e /etc/pip.conf ] || cp /etc/pip.conf "$target/etc/pip.conf"
git archive HEAD | tar -x -C "$target/gloaming"

first=$(grep -m 1 -o '^sh resources/packaging/prepare.sh && .*pip install -q \.' README.md)
whole=$(grep -m 1 '^sh resources/packaging/prepare.sh tests' README.md)
inside() {
    chroot "$target" /usr/bin/env -i HOME=/root PATH=/usr/sbin:/usr/bin:/sbin:/bin LANG=C.UTF-8 \
        sh -euc "cd /gloaming && $1"
}

echo "== $first"
inside "$first"
inside ".venv/bin/gloaming check scenarios/soil_probe.json >/dev/null || [ \$? -lt 3 ]"
for language in en de; do
    inside ".venv/bin/gloaming report scenarios/soil_probe.json --language $language -o /tmp/$language.pdf"
    inside "head -c 5 /tmp/$language.pdf | grep -q '%PDF-'"
    echo "sheet as PDF, $language: written"
done
inside "apt-get install -y -qq --no-install-recommends xvfb xauth >/dev/null 2>&1"
# The window stays until it is told to end: 124 is what timeout says of that.
inside "code=0; timeout 25 xvfb-run -a .venv/bin/gloaming 2>/tmp/window.txt || code=\$?
    cat /tmp/window.txt; [ \$code -eq 124 ] && ! grep -q Traceback /tmp/window.txt"
echo "window: opened, and stayed"
[ "${2:-}" = suite ] || exit 0
echo "== $whole"
inside "rm -rf .venv && $whole"
