"""What is written while everything goes wrong: killed programs, full disks, files that vanish.

    python -m tests.hard_times --rounds 10000 --seed 7

Each round writes files of one kind in a process of its own and kills it at a random moment
(SIGKILL), fills the disk, takes away the right to write or the files themselves, or lets two
processes write at once. What was whole before must be whole after it, what was told as kept must
be there, and whatever is refused must be refused with a sentence. A fault is printed with the
number that makes it again, and the script ends with 1. POSIX alone; as root the disk is a real one
of 96 kB where mounting is allowed, else the size of files is limited.
"""

from __future__ import annotations

import argparse
import math
import os
import random
import resource
import signal
import struct
import subprocess
import sys
import tempfile
import threading
import time
import traceback
from collections import Counter
from collections.abc import Callable
from contextlib import contextmanager, suppress
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

from explorer.files import sweep as sweep_files
from explorer.files.bench_log import read_bench_log
from explorer.files.disk import FileError
from explorer.files.logs import read_light_log
from explorer.files.run_keeper import RunKeeper
from explorer.files.scenario_json import dump_scenario, load_scenario, save_scenario
from explorer.files.shelf import Shelf
from explorer.files.story import RunFile, Story
from explorer.files.study import Study, keep_study, load_study
from explorer.files.study_place import DESIGN, NAME
from explorer.files.sweep import Sweep, parse_vary, run_sweep
from explorer.files.tables import write_table
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.part import part_from

NOBODY = 65_534
DISK_BYTES = 96_000
LATEST_S = 0.02
"""Longest time from the first thing that is kept to the end of a process. [s]"""
RUN = "time_s,store_V\n" + "".join(f"{60 * i},{4.5 - 0.001 * i:.3f}\n" for i in range(200))
LUX = "time_s,lux\n" + "".join(f"{900 * i},{i % 7 * 100}\n" for i in range(200))
_NUMBER = struct.Struct("<q")
Work = Callable[[Callable[[int], None]], None]


class Fault(AssertionError):
    """Something was lost, torn, or told wrongly."""


def demand(holds: object, what: str) -> None:
    """Count a fault unless something holds."""
    if not holds:
        raise Fault(what)


def in_child(work: Work) -> tuple[int, int]:
    """Begin work in a process of its own; its number, and where it tells what it has kept."""
    here, there = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(here)
        status = 1
        try:
            work(lambda n: (os.write(there, _NUMBER.pack(n)), None)[1])
            status = 0
        except BaseException:
            traceback.print_exc()
        os._exit(status)
    os.close(there)
    return child, here


def told(here: int) -> list[int]:
    """Everything that a process told until its end."""
    raw = b""
    while piece := os.read(here, 65_536):
        raw += piece
    os.close(here)
    return [n for (n,) in _NUMBER.iter_unpack(raw[: len(raw) // _NUMBER.size * _NUMBER.size])]


def killed(work: Work, rng: random.Random, latest_s: float = LATEST_S) -> int:
    """The last thing that work told as kept before it was killed at a random moment."""
    child, here = in_child(work)
    first = os.read(here, _NUMBER.size)
    demand(len(first) == _NUMBER.size, "the process ended by itself")
    time.sleep(rng.random() * latest_s)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return ([*_NUMBER.unpack(first), *told(here)])[-1]


def refused(work: Callable[[], object]) -> bool:
    """Whether something is refused, with a sentence."""
    try:
        work()
    except FileError as error:
        demand(str(error).strip().endswith("."), f"no sentence: {error}")
        return True
    return False


def numbered(n: int) -> Scenario:
    """A design that bears a number."""
    return with_value(Scenario(title=f"number {n}"), "panels.count", n % 60 + 1)


def number_in(path: Path) -> int:
    """Which one a file holds, all of it."""
    found = load_scenario(path).scenario
    n = int(found.title.split()[1])
    demand(found == numbered(n), f"{path} holds parts of two designs")
    return n


@contextmanager
def small_disk(folder: Path):
    """A disk that is soon full, or files that cannot grow."""
    place = folder / "disk"
    place.mkdir(exist_ok=True)
    mount = ["mount", "-t", "tmpfs", "-o", f"size={DISK_BYTES}", "tmpfs", str(place)]
    if subprocess.run(mount, capture_output=True, check=False).returncode == 0:
        try:
            yield place
        finally:
            subprocess.run(["umount", str(place)], check=True)
        return
    limits = resource.getrlimit(resource.RLIMIT_FSIZE)
    heard = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    try:
        resource.setrlimit(resource.RLIMIT_FSIZE, (2000, limits[1]))
        yield place
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, limits)
        signal.signal(signal.SIGXFSZ, heard)


class Trials:
    """One method for each kind of trial; each takes a generator of random numbers and a folder."""

    # --- killed ---

    def save(self, rng: random.Random, folder: Path) -> None:
        """A scenario is the old one or the new one."""
        path = folder / "s.json"

        def work(tell: Callable[[int], None]) -> None:
            for n in range(10_000):
                save_scenario(path, numbered(n))
                tell(n)

        last = killed(work, rng)
        demand(last <= number_in(path) <= last + 1, f"saved {last}, on disk {number_in(path)}")

    def study(self, rng: random.Random, folder: Path) -> None:
        """A study opens, with a design and runs that belong to a state that was kept."""
        place, log = folder / "study", folder / "run.csv"
        log.write_text(RUN, encoding="utf-8")

        def work(tell: Callable[[int], None]) -> None:
            own, study = None, Study()
            tell(-1)
            for n in range(10_000):
                runs = (*study.story.runs[: n % 3], RunFile(path=log))
                _, study = keep_study(
                    place, numbered(n), None, replace(study, story=Story(runs=runs)), own=own
                )
                own = place
                tell(n)

        last = killed(work, rng)
        if last < 0 and not (place / NAME).exists():
            return
        found = load_study(place)
        demand(last <= number_in(place / DESIGN) <= last + 1, "another design")
        demand(1 <= len(found.story.runs) <= 3, f"{len(found.story.runs)} runs")
        for run in found.story.runs:
            demand(run.path.read_text(encoding="utf-8") == RUN, f"{run.path} is not whole")

    def shelf(self, rng: random.Random, folder: Path) -> None:
        """Parts on the shelf are whole, and none is lost."""
        shelf = Shelf(folder / "parts")

        def work(tell: Callable[[int], None]) -> None:
            for n in range(10_000):
                shelf.add(part_from("store", Scenario().store, title=f"store {n}"))
                tell(n)

        last = killed(work, rng)
        kept = shelf.kept()
        demand(all(one.part is not None for one in kept), "a torn part")
        demand(len(kept) in (last + 1, last + 2), f"kept {last + 1}, on disk {len(kept)}")

    def meter(self, rng: random.Random, folder: Path) -> None:
        """Every reading that was told as kept is there, and the run can be taken up."""
        path = folder / "a meter.csv"
        start = datetime(2026, 3, 2, 9)

        def work(tell: Callable[[int], None]) -> None:
            keeper = RunKeeper(path)
            for n in range(100_000):
                keeper.add(start + timedelta(seconds=n), 3.0 + n * 1e-5, 200.0)
                tell(keeper.count)

        last = killed(work, rng)
        keeper = RunKeeper(path, go_on=True)
        demand(last <= keeper.count <= last + 1, f"told {last}, on disk {keeper.count}")
        keeper.add(start + timedelta(days=9), 3.0)
        keeper.close()
        if keeper.count > 3:
            demand(read_bench_log(path).readings == keeper.count, "a reading that cannot be read")

    def sweep(self, rng: random.Random, folder: Path) -> None:
        """A sweep goes on where it was killed, to the same table."""
        base = Scenario()
        varied = (parse_vary(base, "light.illuminance_lx=20:900:60"),)
        plan = Sweep(scenario=base, varied=varied, with_answers=False)
        sweep_files.CHUNK = 4

        def work(tell: Callable[[int], None]) -> None:
            for count in run_sweep(plan, None, folder / "b.csv", workers=1):
                tell(count)

        begin = time.monotonic()
        *_, rows = run_sweep(plan, None, folder / "a.csv", workers=1)
        took_s = time.monotonic() - begin
        demand(rows == len(plan), "a sweep without its end")
        killed(work, rng, took_s)
        if (folder / "b.csv").exists():
            demand(not (folder / "b.csv.partial").exists(), "an end without an end")
        *_, rows = run_sweep(plan, None, folder / "b.csv", workers=1)
        demand(rows == len(plan), "rows are missing")
        same = (folder / "a.csv").read_bytes() == (folder / "b.csv").read_bytes()
        demand(same, "another table")
        left = {p.name for p in folder.iterdir()}
        demand(left == {"a.csv", "b.csv"}, f"left behind: {left}")

    def autosave(self, rng: random.Random, folder: Path) -> None:
        """What was settled before the end is offered at the next start."""
        from explorer.state.autosave import Autosave, claim_leftovers

        def work(tell: Callable[[int], None]) -> None:
            os.environ["QT_QPA_PLATFORM"] = "offscreen"
            from PySide6.QtCore import QCoreApplication

            from explorer.state.document import Document

            app = QCoreApplication([])
            document = Document(numbered(0))
            keeper = Autosave(document, folder / "unsaved", interval_ms=1)
            for n in range(1, 10_000):
                document.replace(numbered(n), "x")
                keeper.keep()
                if n % 5 == 0:
                    keeper.wait()
                    tell(n)
                app.processEvents()

        last = killed(work, rng)
        found = claim_leftovers(folder / "unsaved")
        demand(len(found) == 1, f"{len(found)} pieces of work found")
        n = int(found[0].work.scenario.title.split()[1])
        demand(n >= last and found[0].work.scenario == numbered(n), f"kept {last}, offered {n}")
        found[0].discard()

    # --- refused ---

    def full_disk(self, rng: random.Random, folder: Path) -> None:
        """All of the old file stays, or all of the new one is there."""
        with small_disk(folder) as disk:
            path, table = disk / "s.json", disk / "t.csv"
            save_scenario(path, Scenario(title="small"))
            before = path.read_bytes()
            fill = rng.randrange(DISK_BYTES)
            with suppress(OSError), (disk / "fill").open("wb", buffering=0) as file:
                while fill > 0 and (wrote := file.write(b"x" * min(fill, 4096))):
                    fill -= wrote
            long = Scenario(title="large", notes="words " * rng.randrange(3300))
            held = refused(lambda: save_scenario(path, long))
            wanted = before if held else dump_scenario(long).encode()
            demand(path.read_bytes() == wanted, "a torn scenario")
            rows = ["x" * 50] * rng.randrange(2000)
            if refused(lambda: write_table(table, {"a": rows})):
                demand(not table.exists(), "half a table")
            meter = disk / "a meter.csv"
            with suppress(FileError):
                keeper = RunKeeper(meter)
                with suppress(FileError):
                    for n in range(5000):
                        keeper.add(datetime(2026, 3, 2) + timedelta(seconds=n), 3.0)
                keeper.close()
                demand(not meter.exists() or meter.read_bytes().endswith(b"\n"), "half a line")
            refused(lambda: keep_study(disk / "study", long, None, Study()))
            plan = Sweep(
                scenario=Scenario(), with_answers=False,
                varied=(parse_vary(Scenario(), "panels.count=1,2"),),
            )  # fmt: skip
            refused(lambda: list(run_sweep(plan, None, disk / "sweep.csv", workers=1)))
            demand(not list(disk.glob(".*.part")), "parts are left")

    def forbidden(self, rng: random.Random, folder: Path) -> None:
        """Somebody who may not write there is told so, and nothing has changed."""
        path = folder / "s.json"
        save_scenario(path, numbered(1))
        before = path.read_bytes()
        folder.chmod(0o555)
        path.chmod(rng.choice((0o444, 0o400)))

        def work(tell: Callable[[int], None]) -> None:
            if os.geteuid() == 0:
                os.setuid(NOBODY)
            plan = Sweep(scenario=Scenario(), varied=(parse_vary(Scenario(), "panels.count=1,2"),))
            for one in (
                lambda: save_scenario(path, numbered(2)),
                lambda: keep_study(folder / "study", numbered(2), None, Study()),
                lambda: Shelf(folder / "parts").add(
                    part_from("store", Scenario().store, title="x")
                ),
                lambda: RunKeeper(folder / "a meter.csv"),
                lambda: list(run_sweep(plan, None, folder / "t.csv", workers=1)),
                lambda: write_table(folder / "u.csv", {"a": ["b"]}),
            ):
                demand(refused(one), "written without the right to")
            tell(1)

        child, here = in_child(work)
        demand(told(here) == [1], "not refused")
        os.waitpid(child, 0)
        folder.chmod(0o755)
        demand([p.name for p in folder.iterdir()] == ["s.json"], "something was written")
        demand(path.read_bytes() == before, "the file has changed")

    def vanishing(self, rng: random.Random, folder: Path) -> None:
        """Files come and go while they are read and written: read, or refused."""
        place, done = folder / "here", threading.Event()
        names = ("s.json", "l.csv", "r.csv")

        def come_and_go() -> None:
            wild, texts = random.Random(rng.random()), (dump_scenario(numbered(3)), LUX, RUN)
            while not done.is_set():
                with suppress(OSError):
                    place.mkdir(exist_ok=True)
                    for name, text in zip(names, texts, strict=True):
                        (place / name).write_text(text[: wild.choice((None, 900))], "utf-8")
                    if wild.random() < 0.5:
                        (place / wild.choice(names)).unlink()
                    else:
                        os.replace(place, folder / f"gone{wild.random()}")

        thread = threading.Thread(target=come_and_go)
        thread.start()
        try:
            for _ in range(6):
                refused(lambda: load_scenario(place / "s.json"))
                refused(lambda: read_light_log(place / "l.csv"))
                refused(lambda: read_bench_log(place / "r.csv"))
                refused(lambda: save_scenario(place / "t.json", numbered(4)))
                story = Story(runs=(RunFile(path=place / "r.csv"),))
                refused(lambda s=story: keep_study(
                    folder / f"study{rng.random()}", numbered(4), None, Study(story=s)
                ))  # fmt: skip
        finally:
            done.set()
            thread.join()

    def together(self, rng: random.Random, folder: Path) -> None:
        """Two processes write one file: it holds what one of them wrote; a run has one writer."""
        path, table, meter = (folder / name for name in ("s.json", "t.csv", "a meter.csv"))
        vary = parse_vary(Scenario(), "panels.count=1:8")
        plan = Sweep(scenario=Scenario(), with_answers=False, varied=(vary,))

        def work(tell: Callable[[int], None]) -> None:
            for n in range(rng.randrange(5, 30)):
                save_scenario(path, numbered(n))
            with suppress(FileError):
                keeper = RunKeeper(meter, go_on=True)
                for _ in range(20):
                    keeper.add(datetime.now(), 3.0)
                    time.sleep(0.001)
                keeper.close()
            refused(lambda: list(run_sweep(plan, None, table, workers=1)))
            tell(1)

        children = [in_child(work) for _ in range(2)]
        demand([told(here) for _, here in children] == [[1], [1]], "a process has failed")
        for child, _ in children:
            os.waitpid(child, 0)
        number_in(path)
        lines = meter.read_text(encoding="utf-8").splitlines()
        ends = [n for n, line in enumerate(lines) if line.startswith("# ended")]
        demand(ends in ([22], [22, 43]), f"a run of two writers: {ends}")
        rows = table.read_text(encoding="utf-8").splitlines()[1:]
        demand([row.split(",")[0] for row in rows] == [*"01234567"], "mixed rows")
        demand(not list(folder.glob("*.part*")), "parts are left")


KINDS: dict[str, float] = {
    "save": 0.3, "meter": 0.15, "study": 0.15, "shelf": 0.1, "autosave": 0.1, "sweep": 0.05,
    "full_disk": 0.05, "forbidden": 0.03, "vanishing": 0.04, "together": 0.03,
}  # fmt: skip


def run(
    rounds: int, seed: int, tell: Callable[[str], None], kinds: dict[str, float],
    seconds: float = math.inf,
) -> tuple[Counter[str], list[str]]:
    """How many of each kind were tried, and what failed."""
    counts: Counter[str] = Counter()
    faults: list[str] = []
    trials, end = Trials(), time.monotonic() + seconds
    for number in range(seed, seed + rounds):
        if time.monotonic() > end:
            break
        rng = random.Random(number)
        kind = rng.choices(list(kinds), list(kinds.values()))[0]
        with tempfile.TemporaryDirectory() as place:
            os.chmod(place, 0o755)
            try:
                getattr(trials, kind)(rng, Path(place))
                counts[kind] += 1
            except Exception:
                faults.append(f"{kind} {number}: {traceback.format_exc()}")
                tell(faults[-1])
    return counts, faults


def main() -> int:
    """Try for so many rounds, and print what came of it."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--rounds", type=int, default=300)
    options.add_argument("--seconds", type=float, default=math.inf, help="end after so long")
    options.add_argument("--seed", type=int, default=0)
    options.add_argument("--each", action="store_true", help="as many rounds of every kind")
    options.add_argument("--kinds", nargs="*", choices=list(KINDS), default=list(KINDS))
    given = options.parse_args()
    chosen = {kind: KINDS[kind] for kind in given.kinds}
    sets = [{kind: 1.0} for kind in chosen] if given.each else [chosen]
    counts, faults = Counter[str](), list[str]()
    for kinds in sets:
        found, failed = run(given.rounds, given.seed, print, kinds, given.seconds)
        counts, faults = counts + found, faults + failed
    for name, count in sorted(counts.items()):
        print(f"{count:8} {name}")
    print(f"{sum(counts.values()):8} in all, {len(faults)} failures")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
