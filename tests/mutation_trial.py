"""Small deliberate faults, one at a time: does any test notice?

    python -m tests.mutation_trial [--only WORD] [--control] [--list]

Copies the sources, changes one place, runs the tests that should see it, and puts the place back.
Prints the faults that nothing noticed, and ends with their number. A fault whose place is no longer
to be found is reported as such: it wants a new place.
"""

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parent.parent
COPIED = ("explorer", "tests", "resources", "scenarios", "pyproject.toml", "README.md",
          "DEVELOPERS.md")  # fmt: skip
LONGEST_S = 900


@dataclass(frozen=True)
class Fault:
    """One change of one place."""

    name: str
    file: str
    old: str
    new: str
    tests: tuple[str, ...]


WHOLE = "tests/test_whole_model.py"


def fault(name, file, old, new, *tests):
    return Fault(name, "explorer/" + file, old, new, tests)


FAULTS = (
    # physics
    fault("a bank ages at its rated voltage", "scenario/banks.py",
          "voltage_share=full_v / rated_v", "voltage_share=1.0",
          WHOLE, "tests/scenario"),
    fault("capacitance is flat over the voltage", "physics/store.py",
          "bank.slope * (w * w - MIDDLE_OF_RATED**2) / 2.0", "0.0 * w", WHOLE, "tests/physics"),
    fault("leakage is that at rated voltage everywhere", "physics/store.py",
          "return np.asarray(bank.leakage_a * np.asarray(voltage_v, float) / bank.rated_v)",
          "return np.asarray(bank.leakage_a + 0.0 * np.asarray(voltage_v, float))",
          WHOLE, "tests/physics"),
    fault("resistance does not rise in the cold", "physics/store.py",
          "return np.asarray(np.asarray(factor_at_cold, float) ** share)",
          "return np.asarray(np.asarray(factor_at_cold, float) ** (0.0 * share))",
          WHOLE, "tests/physics"),
    fault("a converter forgets its fixed loss", "physics/charger.py",
          "converter.efficiency * power - converter.fixed_loss_w", "converter.efficiency * power",
          WHOLE, "tests/physics"),
    fault("a cool cell is charged in full", "physics/store.py",
          "np.where(t < cool_below_c, cool_share, 1.0)", "np.where(t < cool_below_c, 1.0, 1.0)",
          WHOLE, "tests/physics"),
    # scenario
    fault("a log ignores the light that is set", "scenario/course.py",
          "scale = log_scale(light, log)",
          "scale = 1.0", WHOLE, "tests/scenario"),
    fault("the start-up is no draw of a cell", "scenario/ratings.py",
          "draws = [load.sleep, *(p.draw for p in load.start_up)]", "draws = [load.sleep]",
          WHOLE, "tests/scenario", "tests/advice"),
    fault("a pulse is judged without the regulator's need", "scenario/build.py",
          "minimum_v=need,", "minimum_v=load.minimum_V,", "tests/scenario", "tests/advice"),
    fault("a linear regulator needs no drop-out", "scenario/build.py",
          "load.regulator.output_V + load.regulator.dropout_V", "load.regulator.output_V",
          WHOLE, "tests/scenario"),
    fault("dark days are lit", "scenario/course.py",
          "if day not in pattern.dark_days:", "if day:", WHOLE, "tests/scenario"),
    # engine
    fault("a run may start at a window's closing edge", "engine/schedule.py",
          "if following >= self.close_after(schedule, t) - TIME_GRAIN_S:",
          "if following > self.close_after(schedule, t) + TIME_GRAIN_S:",
          WHOLE, "tests/engine"),
    fault("a cut-off device comes back at once", "engine/walk.py",
          "self.retry_at = self.t + self.load.retry_delay_s", "self.retry_at = self.t",
          WHOLE, "tests/engine"),
    fault("a connect fills no bulk capacitance", "engine/walk.py",
          "self.q = max(self.q - float(inrush_charge(self.load.bulk_f, volts)), 0.0)",
          "self.q = max(self.q, 0.0)", WHOLE, "tests/engine"),
    fault("charging resumes at once below full", "engine/speeds.py",
          "self.resume_c = self.charge_at(full_v - system.full_hysteresis_v)",
          "self.resume_c = self.charge_at(full_v - 0.5 * system.full_hysteresis_v)",
          WHOLE, "tests/engine"),
    fault("the charger's own current is forgotten", "engine/speeds.py",
          "self.quiescent = ld.Draw(current_a=system.quiescent_a)",
          "self.quiescent = ld.Draw()", WHOLE, "tests/engine"),
    fault("bulk fill is forgotten in the batch", "engine/thresholds.py",
          "inrush = (np.asarray(load.bulk_f, float) * filled)",
          "inrush = (0.0 * np.asarray(load.bulk_f, float) * filled)",
          "tests/engine/test_many.py", "tests/advice"),
    fault("a terminal voltage forgets the charging current", "physics/load.py",
          "(charge_a - np.asarray(draw.current_a, float)) * r",
          "(0.0 * charge_a - np.asarray(draw.current_a, float)) * r", WHOLE, "tests/physics"),
    # advice
    fault("cut-offs a week are counted a day", "advice/answers.py",
          "float(read.cut_offs[0] / read.span_s[0]) * WEEK_S",
          "float(read.cut_offs[0] / read.span_s[0]) * WEEK_S / 7.0", WHOLE, "tests/advice"),
    fault("a supercapacitor is charged to its full rating in the contest", "advice/contest.py",
          "rated_v * (1.0 if store.kind == \"cell\" else HEADROOM)", "rated_v",
          "tests/advice"),
    fault("a dark stretch is judged without the reserve", "advice/readings/dark.py",
          "    if engine.system.load.reserve_j <= 0:\n        return run.span_s",
          "    if True:\n        return run.span_s", WHOLE, "tests/advice"),
    fault("the closure counts hours for days", "advice/readings/one.py",
          "case.scenario.margins.closure_days * DAY_S",
          "case.scenario.margins.closure_days * DAY_S / 24.0", WHOLE, "tests/advice"),
    fault("diode leak is no need of the balance", "advice/readings/one.py",
          "rates) + back", "rates) + 0.0 * back", WHOLE, "tests/advice"),
    fault("a cell charged below freezing is within its ratings", "scenario/ratings.py",
          'if self.key == "too_cold":\n            return np.where(self.seen > self.rated, np.inf, '
          "0.0)",
          'if self.key == "too_cold":\n            return np.where(self.seen > self.rated, np.inf, '
          "np.inf)",
          WHOLE, "tests/scenario", "tests/advice"),
    # files, state
    fault("a saved file still counts as migrated", "state/document.py",
          "self.path, self.migrated_from = target, None", "self.path = target",
          "tests/state"),
    fault("an opened file forgets that it was migrated", "state/document.py",
          "self._take(loaded.scenario, loaded.path, loaded.migrated_from)",
          "self._take(loaded.scenario, loaded.path, None)", "tests/state"),
    fault("late break-evens are shown for another design", "state/solver.py",
          "self._edges.set_steps(partial(at_rest_steps, self._operation, self._held))", "pass",
          "tests/state"),
    fault("late reach is shown for another design", "state/solver.py",
          "self.result is not None and self.result.scenario == self._document.scenario",
          "self.result is not None", "tests/state"),
)  # fmt: skip


def copied(folder):
    """A copy of the sources to do harm to."""
    for name in COPIED:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(
                source, folder / name, ignore=shutil.ignore_patterns("__pycache__", "bench")
            )
        elif source.exists():
            shutil.copy2(source, folder / name)


def noticed(folder, tests):
    """The first test that fails, "" where none does, None where they do not end."""
    there = [t for t in tests if (folder / t).exists()]
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *there]
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": str(folder)}
    try:
        done = subprocess.run(
            command, cwd=folder, env=environment, capture_output=True, timeout=LONGEST_S,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return None
    if done.returncode == 0:
        return ""
    lines = done.stdout.decode("utf-8", "replace").splitlines()
    failed = [line.split(" - ")[0] for line in lines if line.startswith(("FAILED", "ERROR"))]
    return failed[0] if failed else "an end without a verdict"


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--only", default="", help="faults whose name holds this")
    options.add_argument("--control", action="store_true", help="first run all without a fault")
    options.add_argument("--list", action="store_true", help="name the faults and end")
    given = options.parse_args()
    chosen = [f for f in FAULTS if given.only in f.name]
    if given.list:
        print("\n".join(f.name for f in chosen))
        return 0
    survived, stale = [], []
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        copied(folder)
        if given.control:
            for tests in dict.fromkeys(one.tests for one in chosen):
                print(f"without a fault: {noticed(folder, tests) or 'all pass'}   {tests}")
        for one in chosen:
            place = folder / one.file
            text = place.read_text(encoding="utf-8") if place.exists() else ""
            if text.count(one.old) != 1:
                stale.append(one.name)
                print(f"no place   {one.name}", flush=True)
                continue
            place.write_text(text.replace(one.old, one.new), encoding="utf-8")
            seen = noticed(folder, one.tests)
            place.write_text(text, encoding="utf-8")
            if seen == "":
                survived.append(one.name)
            word = "no end" if seen is None else "noticed" if seen else "SURVIVED"
            print(f"{word:10s} {one.name}   {seen or ''}", flush=True)
    print(f"{len(chosen)} faults, {len(survived)} survived, {len(stale)} without a place")
    return len(survived)


if __name__ == "__main__":
    sys.exit(main())
