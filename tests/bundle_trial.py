"""Starts the stand-alone program as somebody without Python would, and reads off how it does.

    python -m tests.bundle_trial dist/gloaming

The environment is empty: no Python on the path, a home folder without a file, a screen of its own
(Xvfb). The window must show its verdict, a worker process must serve it, and a sheet as PDF must
come out, in German too. It prints size and times, and ends with 1 where something fails.
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

from explorer.state import theme

WIDTH, HEIGHT = 1280, 800
MOST_S = 120.0
LEAST_PIXELS = 150
"""Of the colour of a verdict, before it counts as painted."""
XWD_NUMBERS = 25
"""Of four bytes each, at the head of a picture of the screen."""


def pixels(screen: Path) -> np.ndarray:
    """Red, green and blue of the screen, shape (height, width, 3)."""
    raw = screen.read_bytes()
    head = np.frombuffer(raw, ">u4", XWD_NUMBERS)
    begin = int(head[0]) + 12 * int(head[19])
    width, height, line = int(head[4]), int(head[5]), int(head[12])
    body = np.frombuffer(raw, np.uint8, height * line, begin).reshape(height, line)
    return body[:, : 4 * width].reshape(height, width, 4)[:, :, 2::-1]


def verdict_is_painted(picture: np.ndarray) -> bool:
    """Whether the disc of a verdict is on the screen."""
    for name in ("runs", "marginal", "falls_short"):
        colour = theme.LIGHT.color(name)
        wanted = np.array([colour.red(), colour.green(), colour.blue()])
        if (np.abs(picture.astype(int) - wanted).max(axis=2) <= 3).sum() >= LEAST_PIXELS:
            return True
    return False


def children(process_id: int) -> int:
    """How many processes a process has started."""
    tasks = Path(f"/proc/{process_id}/task").glob("*/children")
    return sum(len(task.read_text().split()) for task in tasks)


def trial(program: Path) -> bool:
    """Print what is seen; whether all went well."""
    place = Path(tempfile.mkdtemp())
    home = place / "home"
    home.mkdir()
    bare = {"HOME": str(home), "PATH": str(place), "LANG": "C.UTF-8"}
    sample = next((program.parent / "_internal/explorer/_bundled/scenarios").glob("soil*.json"))
    done = True

    def command(*words: str) -> tuple[int, str, float]:
        since = time.monotonic()
        ran = subprocess.run(
            [program, *words], env=bare, cwd=place, capture_output=True, text=True, check=False
        )
        return ran.returncode, ran.stdout + ran.stderr, time.monotonic() - since

    def tell(what: str, good: bool, more: str = "") -> None:
        nonlocal done
        done = done and good
        print(f"{'well' if good else 'FAILED':7} {what} {more}", flush=True)

    size = sum(f.stat().st_size for f in program.parent.rglob("*") if not f.is_symlink())
    print(f"        {size / 1e6:.0f} MB in {program.parent}")
    code, said, took = command("--version")
    tell("--version", code == 0 and "not installed" not in said, f"{said.strip()}, {took:.2f} s")
    here = subprocess.run(
        [sys.executable, "-m", "explorer", "check", str(sample)],
        capture_output=True, text=True, check=False,
    )
    code, said, took = command("check", str(sample))
    tell("check, as here", (code, said) == (here.returncode, here.stdout), f"{took:.2f} s")
    for language in ("en", "de"):
        sheet = place / f"sheet_{language}.pdf"
        code, said, took = command("report", str(sample), "-o", str(sheet), "--language", language)
        good = code == 0 and sheet.read_bytes().startswith(b"%PDF")
        tell(f"sheet as PDF, {language}", good, f"{took:.2f} s {said if not good else ''}")
    table = place / "sweep.csv"
    code, said, took = command("sweep", str(sample), "--vary", "panels.count=1:4", "-o", str(table))
    tell("sweep", code == 0 and table.read_text().count("\n") == 5, f"{took:.2f} s")

    screen = subprocess.Popen(
        [shutil.which("Xvfb") or "Xvfb", ":97", "-screen", "0", f"{WIDTH}x{HEIGHT}x24",
         "-fbdir", str(place)],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        time.sleep(2.0)
        since = time.monotonic()
        window = subprocess.Popen([program], env={**bare, "DISPLAY": ":97"}, cwd=place)
        painted = served = None
        while time.monotonic() - since < MOST_S and window.poll() is None:
            now = time.monotonic() - since
            if painted is None and verdict_is_painted(pixels(place / "Xvfb_screen0")):
                painted = now
            if painted is not None and children(window.pid):
                served = now
                break
            time.sleep(0.05)
        tell("window shows its verdict", painted is not None, f"after {painted or 0.0:.2f} s")
        tell("a worker process serves it", served is not None, f"after {served or 0.0:.2f} s")
        time.sleep(3.0)
        tell("and goes on serving", window.poll() is None and children(window.pid) > 0)
        window.send_signal(signal.SIGINT)
        tell("Ctrl-C ends it", window.wait(30) == 128 + signal.SIGINT)
    finally:
        screen.terminate()
        screen.wait(10)
        shutil.rmtree(place, ignore_errors=True)
    return done


def main(words: list[str]) -> int:
    """Judge the bundle whose folder is named."""
    folder = Path(words[0] if words else "dist/gloaming").absolute()
    program = folder / ("gloaming.exe" if os.name == "nt" else "gloaming")
    if not program.exists():
        print(f"There is no bundle in {folder}; DEVELOPERS.md says how one is made.")
        return 1
    return 0 if trial(program) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
