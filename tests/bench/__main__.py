"""The table of speeds: ``python -m tests.bench [--quick] [--write]``.

Prints a table in Markdown; with ``--write`` it becomes `resources/help/speed.md`, which belongs to
a quiet machine. Ratios are against ngspice, scipy and an empty interpreter in the same run, and of
processor time, which other programs change little. The whole takes some eight minutes on two cores,
``--quick`` under two.
"""

from __future__ import annotations

import argparse
import os
import platform
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from time import perf_counter, process_time

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("PYQTGRAPH_QT_LIB", "PySide6")

from explorer.resource_files import resource_path, scenario_folder
from tests.bench import drag
from tests.bench.test_model import SCENARIOS

ROOT = Path(__file__).resolve().parents[2]
COMPILED = tempfile.TemporaryDirectory()
"""Where the modules of commands stand compiled."""
SIZES = ((1280, 720), (1920, 1080), (3840, 2160))
HEAD = (
    "| what | results | median | 95 % under | longest | least processor time | ratio |\n"
    "|---|---|---|---|---|---|---|"
)
SWEPT = (("verdict", "verdict and margins", 40_000), ("all", "all answers", 20_000))
DEMONSTRATIONS = (
    "door_counter", "plant_label", "seminar_room_co2", "soil_probe", "vent_flap", "watering_valve",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Timed:
    """Some timings of one thing, smallest first."""

    taken_s: tuple[float, ...]
    cpu_s: float
    """Least processor time of one of them, which other programs change little. [s]"""

    @property
    def median_s(self) -> float:
        """In the middle. [s]"""
        return self.taken_s[len(self.taken_s) // 2]

    def row(self, what: str, ratio: str = "") -> str:
        """A row of the table."""
        high = self.taken_s[round(0.95 * (len(self.taken_s) - 1))]
        times = " | ".join(f"{1e3 * t:.3g} ms" for t in (self.median_s, high, self.taken_s[-1]))
        return f"| {what} | {len(self.taken_s)} | {times} | {1e3 * self.cpu_s:.3g} ms | {ratio} |"

    def beside(self, what: str, empty: Timed, more: str = "") -> str:
        """The same, against an interpreter that does nothing."""
        ratio = f"{self.cpu_s / empty.cpu_s:.2g} × an interpreter"
        return self.row(what, ratio if not more else f"{ratio}, {more}")


def spent_s() -> float:
    """Processor time of this process and of those it waited for. [s]"""
    passed = os.times()
    return process_time() + passed.children_user + passed.children_system


def timed(function: Callable[[], object], times: int) -> Timed:
    """Call a function some times, after one that does not count."""
    function()
    return timed_once(function, times)


def timed_once(function: Callable[[], object], times: int = 1) -> Timed:
    """The same without one that does not count."""
    taken, spent = [], []
    for _ in range(times):
        begin, before_s = perf_counter(), spent_s()
        function()
        taken.append(perf_counter() - begin)
        spent.append(spent_s() - before_s)
    return Timed(taken_s=tuple(sorted(taken)), cpu_s=min(spent))


def command(*arguments: object) -> Callable[[], object]:
    """Run Python in a process of its own, its modules compiled before as in an installation."""
    line = [sys.executable, *(str(a) for a in arguments)]
    environment = {
        **os.environ, "PYTHONPATH": str(ROOT), "PYTHONPYCACHEPREFIX": COMPILED.name,
        "PYTHONDONTWRITEBYTECODE": "",
    }

    def run() -> None:
        done = subprocess.run(line, cwd=ROOT, env=environment, capture_output=True, check=False)
        assert done.returncode in (0, 1, 2), done.stderr.decode()

    return run


def starts(quick: bool, empty: Timed) -> Iterator[str]:
    """Commands."""
    from tests.bench.test_start import FIRST_VERDICT

    files = [scenario_folder() / f"{name}.json" for name in DEMONSTRATIONS]
    for what, run in (
        ("window to first painted verdict", command("-c", FIRST_VERDICT)),
        ("`check` of the six demonstrations", command("-m", "explorer", "check", *files)),
    ):
        yield timed(run, 3 if quick else 9).beside(what, empty)


def sweeps(quick: bool, empty: Timed) -> Iterator[str]:
    """Rows of a sweep, the start of the program and of its workers included."""
    for columns, what, most in SWEPT:
        rows = most // 10 if quick else most
        with tempfile.TemporaryDirectory() as folder:
            lux = ",".join(f"{200 + 600 * k / rows:.6g}" for k in range(rows // 4))
            run = command(
                "-m", "explorer", "sweep", scenario_folder() / "soil_probe.json",
                "--vary", f"light.illuminance_lx={lux}", "--vary", "panels.count=1:4",
                "--columns", columns, "--workers", "2", "-o", Path(folder) / "out.csv",
            )
            found = timed_once(run)
        rate = f"{2.0 * rows / found.cpu_s:.0f} rows a second of two processors"
        yield found.beside(f"sweep, {rows} rows with {what}", empty, rate)


def memory(quick: bool, _: Timed) -> Iterator[str]:
    """Most memory of a sweep's first process, for some rows and for four times as many."""
    yield ""
    yield "| memory of a sweep with verdict and margins | rows | most of its first process |"
    yield "|---|---|---|"
    for rows in (4_000, 16_000) if quick else (40_000, 160_000):
        for suffix in ("csv", "parquet"):
            with tempfile.TemporaryDirectory() as folder:
                started = subprocess.Popen(
                    [
                        sys.executable, "-m", "explorer", "sweep",
                        str(scenario_folder() / "soil_probe.json"),
                        "--vary", f"light.illuminance_lx=200:800:{rows // 4}",
                        "--vary", "panels.count=1:4", "--columns", "verdict", "--workers", "2",
                        "-o", str(Path(folder) / f"out.{suffix}"),
                    ],
                    cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                )
                most_kb = 0
                while started.poll() is None:
                    most_kb = max(most_kb, _most_kb(started.pid))
                    time.sleep(0.1)
            yield f"| {suffix} | {rows} | {most_kb / 1024:.0f} MB |"


def _most_kb(pid: int) -> int:
    """Most memory that a process has had by now; what its parent holds does not count. [kB]"""
    try:
        status = Path(f"/proc/{pid}/status").read_text(encoding="ascii")
    except OSError:
        return 0
    return next((int(line.split()[1]) for line in status.splitlines() if "VmHWM" in line), 0)


def model(quick: bool, empty: Timed) -> Iterator[str]:
    """Weeks and years from scratch, and one assessment of each demonstration."""
    from explorer.advice.assess import assess
    from explorer.advice.builds import search
    from explorer.advice.case import Case
    from explorer.advice.spread import default_tolerances, spread
    from explorer.advice.territory import axis_choices, coarse, refined, territory
    from explorer.engine.march import Engine
    from explorer.engine.trace import Trace
    from tests.bench.conftest import minute_pulses, opened
    from tests.bench.test_model import WEEK_S, YEAR_S

    system, times = minute_pulses(650.0), 10 if quick else 50
    for what, span_s in (("week", WEEK_S), ("year", YEAR_S)):
        def run(span_s: float = span_s) -> object:
            engine = Engine(system)
            return Trace(engine, engine.march(span_s)).picture(0.0, span_s, 1000)

        what = f"{what} of one-minute pulses from scratch, to a picture"
        yield timed(run, times).beside(what, empty)
    for name in SCENARIOS:
        scenario, log = opened(name)
        found = timed(lambda s=scenario, g=log: assess(Case(s, g)), times)  # type: ignore[misc]
        yield found.beside(f"assessment with all answers, {name}", empty)
    base, _ = opened("soil_probe")
    case = Case(base)
    x, _, y = axis_choices(case)[:3]
    for what, run in (
        ("map, 16 × 16", lambda: territory(case, coarse(x, 16), coarse(y, 16))),
        ("map, 64 × 64", lambda: territory(case, coarse(x, 64), coarse(y, 64))),
        ("10 000 built devices", lambda: spread(
            case, default_tolerances(base), builds=10_000, years=0.0
        )),
    ):  # fmt: skip
        yield timed(run, 2 if quick else 9).beside(f"{what}, by the batch", empty)
    drawn = territory(case, x, y)
    judged = timed(lambda: list(refined(case, drawn, lambda: False)), 1 if quick else 3)
    near = int((~drawn.sure).sum())
    yield judged.beside(f"map, {near} of {drawn.sure.size} points by the exact march", empty)
    looked = [0]

    def screened() -> None:
        looked[0] = next(f for f in search(case) if f.front or f.is_done).tried

    found = timed(screened, 2 if quick else 5)
    what = f"{looked[0]} builds looked at, the first of the best confirmed"
    yield found.beside(what, empty, f"{looked[0] / found.cpu_s:.0f} builds a second")
    for count in (1000, 5000):
        many = with_phases(base, count)
        found = timed(lambda s=many: assess(Case(s)), 2 if quick else 5)  # type: ignore[misc]
        yield found.beside(f"assessment with {count} phases in one operation", empty)


def with_phases(scenario, count):
    """The scenario with an operation of so many phases, of three draws in turn."""
    from explorer.scenario.model import with_value

    first = scenario.load.operations[0]
    phase = first.phases[0]
    length_s = sum(p.duration_s for p in first.phases) / count
    phases = [
        phase.model_copy(
            update={"current_A": phase.current_A * (1 + k % 3) / 3, "duration_s": length_s}
        )
        for k in range(count)
    ]
    return with_value(scenario, "load.operations.0.phases", phases)


def rivals(quick: bool, _: Timed) -> Iterator[str]:
    """The same week by other means."""
    from tests.bench import test_rivals as rival
    from tests.outside.reference_ode import Reference

    given = rival.same_system()
    ours = timed(lambda: rival.march(given), 5 if quick else 15)
    yield ours.row("the week that all three compute, ours, with all tables", "1")
    if shutil.which("ngspice"):
        with tempfile.TemporaryDirectory() as folder:
            def spice(span_s: float) -> None:
                deck, out = Path(folder) / "store.cir", Path(folder) / "last.txt"
                deck.write_text(rival.netlist(span_s, out), encoding="utf-8")
                subprocess.run(["ngspice", "-b", str(deck)], capture_output=True, check=False)

            start = timed(lambda: spice(30.0), 3)
            found = timed_once(lambda: spice(rival.WEEK_S))
            whole = Timed(
                taken_s=(found.median_s - start.median_s,), cpu_s=found.cpu_s - start.cpu_s
            )
        ratio = f"{whole.cpu_s / ours.cpu_s:.0f} × ours"
        yield whole.row("ngspice, without its start", ratio)
    if not quick:
        reference = Reference(given, rtol=1e-6)
        whole = timed_once(lambda: reference.run(rival.WEEK_S, rival.START_V, connected=True))
        yield whole.row(
            "scipy's solve_ivp, event by event", f"{whole.cpu_s / ours.cpu_s:.0f} × ours"
        )


def drags(quick: bool) -> Iterator[str]:
    """A knob swept, with drawers shut and with each of them open."""
    from PySide6.QtWidgets import QApplication

    from explorer import app as program
    from explorer.loaded import settle_down
    from explorer.state.collector import CollectorRounds
    from explorer.state.settings import SettingsStore
    from explorer.state.workers import Workers
    from explorer.widgets.drawers.drawers import QUESTIONS

    app = QApplication.instance() or QApplication([])
    sys.setswitchinterval(program.SWITCH_S)
    with tempfile.TemporaryDirectory() as folder:
        settings = SettingsStore(Path(folder) / "settings.ini")
        settings.update(tour_seen=True)
        workers = Workers()
        window = program.build_window(app, Path(folder) / "settings.ini", settings, None, workers)
        program.open_first(window, None)
        window.show()
        settle_down()
        rounds = CollectorRounds(app)
        for name in ("soil_probe", "seminar_room_co2") if quick else SCENARIOS:
            window.document.open_example(scenario_folder() / f"{name}.json")
            for size in SIZES[:1] if quick else SIZES:
                window.resize(*size)
                drag.settle(window)
                what = f"{name}, {size[0]}×{size[1]}, drawers shut"
                yield drag_row(what, drag.sweep(window, "light", 3.0 if quick else 10.0))
            window.resize(*SIZES[0])
            drag.settle(window)
            what = f"{name}, {SIZES[0][0]}×{SIZES[0][1]}, no design twice"
            seconds = 3.0 if quick else 10.0
            yield drag_row(what, drag.sweep(window, "light", seconds, anew=True))
            for key in QUESTIONS[:1] if quick else QUESTIONS:
                window.drawers.open(key)
                drag.wait(600)
                yield drag_row(f"{name}, {key} open", drag.sweep(window, "light", 2.0))
            window.drawers.open("")
        window.document.undo_stack.setClean()
        window.jobs.retire()  # a question asked now would share the processor with what follows
        window.jobs.finish()
        window.close()
        window.deleteLater()
        workers.close()
        app.processEvents()
        rounds.end()


def drag_row(what: str, found: drag.Sweep) -> str:
    """A row of the table of drags."""
    gaps = " | ".join(f"{1e3 * found.gap_s(share):.1f} ms" for share in (0.5, 0.95, 1.0))
    cpu_ms = 1e3 * found.cpu_s / max(found.frames, 1)
    return f"| {what} | {found.frames} | {found.a_second:.1f} | {gaps} | {cpu_ms:.1f} ms |"


def machine() -> str:
    """Where and when it was measured."""
    name = platform.processor() or platform.machine()
    info = Path("/proc/cpuinfo")
    if info.exists():
        lines = info.read_text(encoding="utf-8").splitlines()
        told = (x.partition(":")[2].strip() for x in lines if x.startswith("model name"))
        name = next(told, name)
    return (
        f"Measured on {datetime.now(UTC):%Y-%m-%d}: {name}, {os.cpu_count()} cores, "
        f"{platform.system()}, Python {platform.python_version()}, drawn in software, "
        f"load {os.getloadavg()[0]:.1f} when it began: above 0.3 the figures are too slow."
    )


def table(quick: bool) -> Iterator[str]:
    """The whole page, line by line."""
    yield "# How fast it is"
    yield ""
    yield machine()
    yield ""
    yield "A knob is swept over twelve stops sixty times a second; a frame counts when it shows a"
    yield "new design. The gap is the time between two such frames. To and fro most designs were on"
    yield "show before, whose results are kept; “no design twice” computes each of them."
    yield ""
    yield "| drag | frames | a second | median gap | 95 % under | longest | processor a frame |"
    yield "|---|---|---|---|---|---|---|"
    yield from drags(quick)
    yield ""
    yield HEAD
    empty = timed(command("-c", "pass"), 9)
    yield empty.row("an interpreter that does nothing", "1")
    for part in (model, rivals, starts, sweeps, memory):
        yield from part(quick, empty)


def main() -> None:
    """Print the table, and write it where that is asked for."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench")
    parser.add_argument("--quick", action="store_true", help="fewer rows and shorter runs")
    parser.add_argument("--write", action="store_true", help="put it into resources/help/speed.md")
    asked = parser.parse_args()
    lines = []
    for line in table(asked.quick):
        print(line, flush=True)
        lines.append(line)
    if asked.write:
        path = resource_path("help", "model-note.md").with_name("speed.md")
        path.write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
