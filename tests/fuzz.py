"""Files, settings and arguments as nobody in their senses writes them.

    python -m tests.fuzz --seconds 3600 --seed 7

Whole scenario files, studies, light logs, logged runs, captures, curves, years of weather, parts,
settings and sweep arguments are broken in ways that know their structure. Each must be read or be
refused with a sentence: any other exception, anything that takes longer than two seconds of
computing, and any number that is not finite in an answer counts as a failure, which is printed
with the seed that makes it again. It ends with 1 then.
"""

from __future__ import annotations

import argparse
import json
import logging
import math
import random
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

from explorer.files.disk import FileError
from explorer.files.logs import read_light_log
from explorer.files.part_json import load_part
from explorer.files.scenario_json import dump_scenario, load_scenario, parse_scenario
from explorer.files.study import load_study
from explorer.files.sweep_plan import SweepError
from explorer.resource_files import resource_path, scenario_folder
from tests.weather_files import epw, rows

MOST_S = 2.0
TELL_EVERY = 10_000
ODD: tuple[Any, ...] = (
    None, True, False, 0, -1, 1, 1e308, -1e308, 5e-324, 1e-30, 2**63, -(2**63), "", " ", "x", "1",
    "\0", "\x1b[2J", "\u202e", "a" * 5000, [], {}, [[]], [1, 2], {"kind": "x"}, "led_4000",
)  # fmt: skip
BYTES = (b"\0", b"\xff\xfe", b"\xef\xbb\xbf", b"\r", b"\n\n", b";", b",", b'"', b"1e999", b"NaN")

LIKELY = b"0123456789.,;-:eE \t\n\"/"
"""Single bytes that may stand in a table."""
VALUES = (b"1", b"dark", b"@ByteArray(\\x1\\xd9)", b"@Variant(\\0\\x7f)", b'"', b"a,b")
"""Of settings."""
STUDY = {
    "format": "gloaming-study", "version": 1, "same_meters": True,
    "runs": [{"file": "run.csv", "reading": {"dates": "dmy", "decimal": "point"}, "later": False,
              "conditions": {"light_lx": 200.0, "draw": "design", "current_A": 0.0}}],
    "known": [{"path": "store.capacitance_F", "share": 0.1}],
    "designs": [{"name": "larger", "file": "scenario.json"}],
    "sweeps": [{"file": "s.csv", "vary": ["panels.count=1,2"], "random": 0, "seed": 1}],
}  # fmt: skip


def places(node: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Where something can be changed in a tree of objects and lists."""
    found = [path] if path else []
    if isinstance(node, (dict, list)):
        for key, value in node.items() if isinstance(node, dict) else enumerate(node):
            found += places(value, (*path, key))
    return found


def broken(tree: Any, rng: random.Random) -> Any:
    """A copy with one to four changes: other values, keys gone, doubled, swapped or new."""
    tree = json.loads(json.dumps(tree))
    for _ in range(rng.randint(1, 4)):
        spots = places(tree)
        if not spots:
            break
        *head, last = rng.choice(spots)
        node = tree
        for key in head:
            node = node[key]
        value = node[last]
        kind = rng.random()
        if kind < 0.35:
            node[last] = rng.choice(ODD)
        elif kind < 0.65 and isinstance(value, (int, float)) and not isinstance(value, bool):
            node[last] = value * 10.0 ** rng.uniform(-9, 9) * rng.choice((1, 1, 1, -1))
        elif kind < 0.75:
            del node[last]
        elif kind < 0.85 and isinstance(value, list) and value:
            node[last] = value * rng.choice((2, 7, 120))
        elif isinstance(node, dict):
            node[rng.choice(list(node))] = value
    return tree


def torn(raw: bytes, rng: random.Random) -> bytes:
    """Bytes with some cut out, doubled, turned over or put in."""
    for _ in range(rng.choice((1, 1, 2, 3, 6))):
        at, to = sorted(rng.randrange(len(raw) + 1) for _ in range(2))
        kind = rng.random()
        if kind < 0.3:
            raw = raw[:at] + raw[min(to, at + 40):]
        elif kind < 0.5:
            raw = raw[:at] + raw[at : at + 60] + raw[at:]
        elif kind < 0.7:
            raw = raw[:at] + rng.choice(BYTES) + raw[at:]
        elif kind < 0.9:
            raw = raw[:at] + bytes([rng.choice(LIKELY)]) + raw[at + 1 :]
        else:
            raw = raw[:at]
        if not raw:
            break
    return raw


def begins(path: Path) -> bytes:
    """The first lines of a table."""
    return path.read_bytes()[:3000].rpartition(b"\n")[0]


class Trials:
    """The kinds of trial, each a function of a generator."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.scenarios = [
            json.loads(path.read_text(encoding="utf-8"))
            for path in sorted(scenario_folder().glob("*.json"))
        ]
        self.run = begins(resource_path("logs") / "fernhollow_bench_run.csv")
        self.year = epw(rows()).encode()
        self.logs = [begins(p) for p in sorted(resource_path("logs").glob("*.csv"))]

    def scenario_file(self, rng: random.Random) -> None:
        """A scenario of broken structure or torn bytes is read and written again, or refused."""
        tree = broken(rng.choice(self.scenarios), rng)
        raw = json.dumps(tree).encode("utf-8", "surrogatepass")
        place = self.folder / "s.json"
        place.write_bytes(torn(raw, rng) if rng.random() < 0.3 else raw)
        scenario = load_scenario(place).scenario
        assert parse_scenario(dump_scenario(scenario), "again") == scenario

    def verdict(self, rng: random.Random) -> None:
        """What is read is judged, with finite numbers, never ends or nothing."""
        from explorer.advice.assess import assess
        from explorer.advice.case import Case

        tree = broken(rng.choice(self.scenarios), rng)
        scenario = parse_scenario(json.dumps(tree), "s.json")
        if scenario.light.pattern.kind in ("log", "daylight"):
            return
        case = Case(scenario)
        try:
            with case.within(4000):
                found = assess(case)
        except ArithmeticError:
            return  # said as a sentence: this cannot be computed
        except Exception as error:
            if type(error).__name__ == "Unfinished":
                return  # a window hands it to a worker
            raise
        for check in found.verdict.checks:
            assert not math.isnan(float(check.margin)), f"{check.name} is no number"

    def light_log(self, rng: random.Random) -> None:
        """A table of light is read to finite levels, or refused."""
        place = self.folder / "l.csv"
        place.write_bytes(torn(rng.choice(self.logs), rng))
        log = read_light_log(place)
        assert all(math.isfinite(float(x)) and x >= 0.0 for x in log.illuminance_lx)

    def capture(self, rng: random.Random) -> None:
        """A captured current becomes phases of finite currents, or is refused."""
        from explorer.advice.capture.habit import habit
        from explorer.advice.capture.phases import reduced
        from explorer.files.captures import read_capture

        busy_mA, every = rng.choice((0.02, 8.0, 700.0)), rng.choice((7, 20, 60))
        rows = (f"{0.1 * n:.1f};{busy_mA if n % every < 3 else 0.002}" for n in range(200))
        table = "Time [ms];Main current [mA]\n" + "\n".join(rows)
        place = self.folder / "c.csv"
        place.write_bytes(torn(table.encode(), rng))
        found = read_capture(place)
        known = habit(found)
        try:
            edges, amps = reduced(found.between(known.from_s, known.to_s), known).steps()
        except ValueError as error:
            if "takes no charge" in str(error):
                return  # of a torn file: said as a sentence
            raise
        assert all(math.isfinite(x) for x in (*edges, *amps))

    def logged_run(self, rng: random.Random) -> None:
        """A logged run is read to finite voltages, or refused."""
        from explorer.files.bench_log import read_bench_log

        place = self.folder / "r.csv"
        place.write_bytes(torn(self.run, rng))
        found = read_bench_log(place)
        assert all(math.isfinite(float(x)) for x in found.volts)

    def curve(self, rng: random.Random) -> None:
        """A measured curve of a panel is read, or refused."""
        from explorer.files.measured_curves import read_curve

        rows = (f"{0.2 * n:.1f},{50.0 - 0.4 * n * n:.2f},200" for n in range(12))
        place = self.folder / "k.csv"
        place.write_bytes(torn(("V,uA,lux\n" + "\n".join(rows)).encode(), rng))
        found = read_curve(place)
        assert all(math.isfinite(float(x)) for x in found.current_a)

    def study(self, rng: random.Random) -> None:
        """A study is opened, or refused."""
        place = self.folder / "study"
        place.mkdir(exist_ok=True)
        (place / "scenario.json").write_text(json.dumps(self.scenarios[0]), encoding="utf-8")
        (place / "run.csv").write_bytes(self.run)
        raw = json.dumps(broken(STUDY, rng)).encode("utf-8", "surrogatepass")
        (place / "study.json").write_bytes(torn(raw, rng) if rng.random() < 0.3 else raw)
        load_study(place)

    def weather(self, rng: random.Random) -> None:
        """A year of weather is read, or refused."""
        from explorer.files.weather import read_weather

        place = self.folder / "w.epw"
        place.write_bytes(torn(self.year, rng))
        found = read_weather(place)
        assert all(math.isfinite(float(x)) for x in found.diffuse_lx)

    def part(self, rng: random.Random) -> None:
        """A part is read or refused."""
        tree: dict[str, Any] = {"format": "gloaming-part", "version": 1, "title": "x"}
        tree |= {"kind": "store", "store": rng.choice(self.scenarios)["store"]}
        place = self.folder / "p.json"
        place.write_text(json.dumps(broken(tree, rng)), encoding="utf-8", errors="replace")
        load_part(place)

    def settings(self, rng: random.Random) -> None:
        """Any settings at all give settings."""
        from explorer.state.settings import SettingsStore

        place = self.folder / f"settings{rng.random()}.ini"
        lines = [b"[General]"]
        for key in (b"schema", b"theme", b"language", b"geometry", b"recent\\size", b"tour_seen"):
            value = rng.choice(VALUES)
            lines.append(key + b"=" + (torn(value, rng) if rng.random() < 0.5 else value))
        place.write_bytes(torn(b"\n".join(lines), rng))
        store = SettingsStore(place)
        store.update(tour_seen=True)
        for left in self.folder.glob(place.stem + "*"):
            left.unlink()

    def arguments(self, rng: random.Random) -> None:
        """A sweep says what is wrong with what is to vary, before it takes memory for it."""
        from explorer.files.sweep_plan import parse_vary

        pieces = ("light.illuminance_lx", "panels.count", "=", ":", ",", "1", "8", "inf", "nan",
                  "-1", "1e9", "ratio", "0", "1e-300", "store", ".", "load.operations")  # fmt: skip
        text = "".join(rng.choice(pieces) for _ in range(rng.randint(1, 9)))
        if rng.random() < 0.5:
            text = rng.choice(pieces[:2]) + "=" + "".join(rng.choices(pieces[3:12], k=3))
        parse_vary(parse_scenario(json.dumps(rng.choice(self.scenarios)), "s"), text)


KINDS: dict[str, float] = {
    "scenario_file": 0.35, "light_log": 0.1, "logged_run": 0.05, "capture": 0.06, "curve": 0.05,
    "part": 0.14, "study": 0.08, "settings": 0.05, "arguments": 0.07, "verdict": 0.049,
    "weather": 0.001,
}  # fmt: skip
REFUSED = (FileError, SweepError)


def run(
    seconds: float, seed: int, tell: Callable[[str], None], most: float = math.inf
) -> tuple[Counter[str], list[str]]:
    """How many of each kind were tried, and what failed; for so long, or so many."""
    counts: Counter[str] = Counter()
    faults: list[str] = []
    with tempfile.TemporaryDirectory() as place:
        trials = Trials(Path(place))
        end = time.monotonic() + seconds
        number, told = seed, 0
        while time.monotonic() < end and number - seed < most:
            number += 1
            rng = random.Random(number)
            kind = rng.choices(list(KINDS), list(KINDS.values()))[0]
            if number - seed <= len(KINDS):  # each at least once
                kind = list(KINDS)[number - seed - 1]
            begin = time.process_time()
            try:
                getattr(trials, kind)(rng)
                counts[f"{kind}, taken"] += 1
            except REFUSED as error:
                counts[f"{kind}, refused"] += 1
                text = str(error)
                if not text or len(text) > 2000 or not text.replace("\n", "").isprintable():
                    faults.append(f"{kind} {number}: no sentence: {text[:200]!r}")
            except Exception:
                faults.append(f"{kind} {number}: {traceback.format_exc()}")
            took = time.process_time() - begin
            if took > MOST_S:
                faults.append(f"{kind} {number}: took {took:.1f} s")
            for fault in faults[told:]:
                tell(fault)
            told = len(faults)
            if (number - seed) % TELL_EVERY == 0:
                tell(f"{number - seed} cases, {told} failures")
    return counts, faults


def main() -> int:
    """Try for so long, and print what came of it."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--seconds", type=float, default=60.0)
    options.add_argument("--cases", type=float, default=math.inf, help="end after so many")
    options.add_argument("--seed", type=int, default=0)
    given = options.parse_args()
    logging.disable(logging.WARNING)
    counts, faults = run(given.seconds, given.seed, print, given.cases)
    for name, count in sorted(counts.items()):
        print(f"{count:8} {name}")
    print(f"{sum(counts.values()):8} in all, {len(faults)} failures")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
