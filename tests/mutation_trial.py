"""Small deliberate faults, one at a time: does any test notice?

    python -m tests.mutation_trial [--only WORD] [--begin N] [--end N] [--control] [--write]

Copies the sources, changes one place, runs the tests that should see it, and puts the place back.
The test that noticed a fault the last time runs first (`noticed.json`, which --write brings up to
date), so that all of it takes minutes; where it passes, every test named for the fault follows.
Prints the faults that nothing noticed, and ends with their number. A fault whose place is no longer
to be found is reported as such: it wants a new place.
"""

import argparse
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.faults import FAULTS, WHOLE

ROOT = Path(__file__).parent.parent
NOTICED = Path(__file__).with_name("noticed.json")
COPIED = ("explorer", "tests", "resources", "scenarios", "pyproject.toml", "README.md",
          "DEVELOPERS.md")  # fmt: skip
LONGEST_S = 900
NOT_FOUND, NO_TESTS = 4, 5
"""Exit codes of pytest: the test of the last time has gone, or gathers nothing."""


def copied(folder):
    """A copy of the sources to do harm to."""
    for name in COPIED:
        source = ROOT / name
        if source.is_dir():
            left = ("__pycache__", "bench") if name == "tests" else ("__pycache__",)
            shutil.copytree(source, folder / name, ignore=shutil.ignore_patterns(*left))
        elif source.exists():
            shutil.copy2(source, folder / name)


def first_failure(folder, tests):
    """The first test that fails, "" where none does, None where they do not end."""
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests]
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": str(folder)}
    try:
        done = subprocess.run(
            command,
            cwd=folder,
            env=environment,
            capture_output=True,
            timeout=LONGEST_S,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return None
    if done.returncode == 0:
        return ""
    lines = done.stdout.decode("utf-8", "replace").splitlines()
    failed = [line for line in lines if line.startswith(("FAILED", "ERROR"))]
    if done.returncode in (NOT_FOUND, NO_TESTS) and not any("::" in line for line in failed):
        return ""
    return failed[0].split(" - ")[0] if failed else "an end without a verdict"


def noticed(folder, tests, likeliest=None):
    """The first test that fails, that of the last time first and the whole model last."""
    if likeliest and (found := first_failure(folder, [likeliest])) != "":
        return found
    there = sorted((t for t in tests if (folder / t).exists()), key=lambda t: t == WHOLE)
    return first_failure(folder, there)


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--only", default="", help="faults whose name holds this")
    options.add_argument("--begin", type=int, default=1, help="number of the first fault")
    options.add_argument("--end", type=int, default=len(FAULTS), help="number of the last")
    options.add_argument("--control", action="store_true", help="first run all without a fault")
    options.add_argument("--list", action="store_true", help="name the faults and end")
    options.add_argument("--write", action="store_true", help="keep which test noticed what")
    given = options.parse_args()
    chosen = [f for f in FAULTS[given.begin - 1 : given.end] if given.only in f.name]
    if given.list:
        print("\n".join(f.name for f in chosen))
        return 0
    known = json.loads(NOTICED.read_text(encoding="utf-8")) if NOTICED.exists() else {}
    known = {one.name: known[one.name] for one in FAULTS if one.name in known}
    survived, stale = [], []
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        copied(folder)
        if given.control:
            likeliest = sorted({known[one.name] for one in chosen if one.name in known})
            print(f"without a fault: {noticed(folder, likeliest) or 'all pass'}", flush=True)
            for tests in dict.fromkeys(one.tests for one in chosen):
                print(f"without a fault: {noticed(folder, tests) or 'all pass'}   {tests}")
        for one in chosen:
            place = folder / one.file
            text = place.read_text(encoding="utf-8") if place.exists() else ""
            if text.count(one.old) != 1:
                stale.append(one.name)
                print(f"no place   {one.name}", flush=True)
                continue
            since = time.monotonic()
            place.write_text(text.replace(one.old, one.new), encoding="utf-8")
            seen = noticed(folder, one.tests, known.get(one.name))
            place.write_text(text, encoding="utf-8")
            took = time.monotonic() - since
            if seen == "":
                survived.append(one.name)
                known.pop(one.name, None)
            elif seen is not None and seen.startswith("FAILED"):
                known[one.name] = seen.removeprefix("FAILED ")
            error = seen is not None and seen.startswith("ERROR")
            word = "no end" if seen is None else "error" if error else "noticed"
            word = "SURVIVED" if seen == "" else word
            print(f"{word:10s} {one.name}   {seen or ''}   {took:.0f} s", flush=True)
            if given.write:
                NOTICED.write_text(json.dumps(known, indent=1) + "\n", encoding="utf-8")
    print(f"{len(chosen)} faults, {len(survived)} survived, {len(stale)} without a place")
    return len(survived)


if __name__ == "__main__":
    sys.exit(main())
