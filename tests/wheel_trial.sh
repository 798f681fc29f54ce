#!/bin/sh
# The wheel outside a checkout, installed by one user and used by another who may write nothing of it:
#   sh tests/wheel_trial.sh FOLDER [PYTHON]
# As root, with setpriv and xvfb-run (Debian: util-linux, xvfb, xauth). FOLDER must not be there yet; some
# 700 MB are laid into it. The other user is nobody, with an empty home folder.
set -eu
target=$1
python=${2:-python3}
cd "$(dirname "$0")/.."
[ ! -e "$target" ] || { echo "$target is there already" >&2; exit 1; }
mkdir -p "$target/home" "$target/wheel" "$target/work"

"$python" -m venv "$target/build"
"$target/build/bin/pip" install -q build hatchling
"$target/build/bin/python" -m build -q --wheel --no-isolation -o "$target/wheel" .
"$python" -m venv "$target/env"
"$target/env/bin/pip" install -q "$target"/wheel/*.whl
# Compiled files are left out, too: a folder that nobody may write has to do without them.
find "$target/env" -name __pycache__ -prune -exec rm -rf {} +
chmod -R a-w,a+rX "$target/env"
cp scenarios/soil_probe.json "$target/work/"
chown -R nobody "$target/home" "$target/work"
chmod a+rx "$target"

as_nobody() {
    (cd "$target/work" && setpriv --reuid=nobody --regid=nogroup --clear-groups \
        env -i HOME="$target/home" PATH="$target/env/bin:/usr/bin:/bin" LANG=C.UTF-8 "$@")
}
as_nobody python -c '' 2>/dev/null || {
    echo "nobody cannot start $python: name one that lies in no home folder, such as /usr/bin/python3" >&2
    exit 1
}
as_nobody touch "$target/env/lib/mine" 2>/dev/null && { echo "the folder can be written" >&2; exit 1; }

as_nobody gloaming --version
as_nobody gloaming check soil_probe.json >/dev/null || [ $? -lt 3 ]
for language in en de; do
    as_nobody gloaming report soil_probe.json --language $language -o sheet_$language.pdf >/dev/null
    head -c 5 "$target/work/sheet_$language.pdf" | grep -q '%PDF-'
    echo "sheet as PDF, $language: written"
done
as_nobody gloaming sweep soil_probe.json --vary panels.count=1:4 -o table.csv >/dev/null
[ "$(wc -l <"$target/work/table.csv")" = 5 ] && echo "sweep: four rows"
as_nobody gloaming desktop >/dev/null
files=$(find "$target/home" -type f | wc -l)
as_nobody gloaming desktop --remove >/dev/null
kept=$(find "$target/home/.local/share/applications" "$target/home/.local/share/icons" -type f \
    -name '*gloaming*' 2>/dev/null | wc -l)
[ "$files" -gt 2 ] && [ "$kept" = 0 ] && echo "desktop entry: $files files, taken off again"
as_nobody gloaming completion bash | grep -q complete && echo "completion: written"
# The window stays until it is told to end: 124 is what timeout says of that.
code=0
as_nobody timeout 25 xvfb-run -a gloaming 2>"$target/window.txt" || code=$?
cat "$target/window.txt"
[ $code -eq 124 ] && ! grep -q Traceback "$target/window.txt" && echo "window: opened, and stayed"
