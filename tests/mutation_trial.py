"""Small deliberate faults, one at a time: does any test notice?

    python -m tests.mutation_trial [--only WORD] [--begin N] [--end N] [--control] [--list]

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
LONGEST_S = 2400


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
    fault("a capacitor lives twice as long for every 20 K less", "physics/ageing.py",
          "2.0 ** (cooler / LIFE_HALVES_PER_K) * gained",
          "2.0 ** (0.5 * cooler / LIFE_HALVES_PER_K) * gained", "tests/physics", "tests/scenario"),
    fault("a cell fades alike in cold and heat", "physics/ageing.py",
          "life.fade_per_year * 2.0**warmer", "life.fade_per_year * 2.0 ** (0.0 * warmer)",
          "tests/physics", "tests/scenario"),
    fault("a cold start gives more current than the panel", "physics/charger.py",
          "given.cold_w, source_v, path, np.minimum(given.panel_a, converter.output_limit_a)",
          "given.cold_w, source_v, path, converter.output_limit_a", "tests/physics", WHOLE),
    fault("a converter runs on less power than it needs", "physics/charger.py",
          "runs = (voltage >= converter.minimum_panel_v) & (power >= converter.minimum_panel_w)",
          "runs = voltage >= converter.minimum_panel_v", "tests/physics", WHOLE),
    fault("a switching regulator loses nothing", "physics/load.py",
          "return Draw(power_w=current * v / regulator.efficiency)",
          "return Draw(power_w=current * v)", "tests/physics", "tests/scenario", WHOLE),
    fault("a diode never leaks back", "physics/charger.py",
          "np.maximum(pv.current_of_diode(panel, light, u), -leak)",
          "np.maximum(pv.current_of_diode(panel, light, u), 0.0 * leak)",
          "tests/physics", "tests/advice/test_many_and_one.py"),
    fault("an efficiency between two store voltages is that of the lower", "physics/efficiency.py",
          "total = total + np.interp(volts, self.volts, weight) * watt",
          "total = total + np.floor(np.interp(volts, self.volts, weight)) * watt",
          "tests/physics", WHOLE),
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
    fault("a cover takes no light", "scenario/course.py",
          "light.orientation_factor * light.cover_factor * light.soiling_factor",
          "light.orientation_factor * light.soiling_factor", "tests/scenario", WHOLE),
    fault("daylight counts like lamps", "scenario/course.py",
          "(1.0 - share) * lamp + share * day", "(1.0 - share) * lamp + share * lamp",
          "tests/scenario", WHOLE),
    fault("full sun falls on a dirty panel", "scenario/ratings.py",
          '"orientation_factor": 1.0, "cover_factor": 1.0, "soiling_factor": 1.0,',
          '"orientation_factor": 1.0, "cover_factor": 1.0,', "tests/scenario", WHOLE),
    fault("the largest draw is looked for at the cut-off alone", "scenario/ratings.py",
          "for volts in (load.off_v, system.full_v):", "for volts in (load.off_v,):",
          "tests/scenario", WHOLE),
    # engine
    fault("a run may start at a window's closing edge", "engine/schedule.py",
          "if inside < end - TIME_GRAIN_S:", "if inside <= end + TIME_GRAIN_S:",
          "tests/engine/test_schedule.py", WHOLE),
    fault("a cut-off device comes back at once", "engine/walk.py",
          "self.retry_at = self.t + self.load.retry_delay_s", "self.retry_at = self.t",
          WHOLE, "tests/engine/test_walk.py"),
    fault("a connect fills no bulk capacitance", "engine/walk.py",
          "self.q = max(self.q - float(inrush_charge(self.load.bulk_f, volts)), 0.0)",
          "self.q = max(self.q, 0.0)", WHOLE, "tests/engine/test_walk.py"),
    fault("charging resumes at once below full", "engine/speeds.py",
          "self.resume_c = self.charge_at(full_v - system.full_hysteresis_v)",
          "self.resume_c = self.charge_at(full_v - 0.5 * system.full_hysteresis_v)",
          WHOLE, "tests/engine/test_walk.py"),
    fault("the charger's own current is forgotten", "engine/speeds.py",
          "self.quiescent = ld.Draw(current_a=system.quiescent_a)",
          "self.quiescent = ld.Draw()", WHOLE, "tests/engine/test_walk.py"),
    fault("bulk fill is forgotten in the batch", "engine/thresholds.py",
          "inrush = (np.asarray(load.bulk_f, float) * filled)",
          "inrush = (0.0 * np.asarray(load.bulk_f, float) * filled)",
          "tests/engine/test_many.py", "tests/advice"),
    fault("a terminal voltage forgets the charging current", "physics/load.py",
          "(charge_a - np.asarray(draw.current_a, float)) * r",
          "(0.0 * charge_a - np.asarray(draw.current_a, float)) * r", WHOLE, "tests/physics"),
    fault("straight lines lie on what a diode brings at the nodes", "engine/speeds.py",
          "found[1:-1] -= lower", "found[1:-1] -= 0.0 * lower", WHOLE),
    fault("no charger feeds what its own current pulls below zero", "engine/speeds.py",
          "real = np.minimum(v - draw.current_a * esr, 0.0)", "real = 0.0 * v", WHOLE),
    fault("a store that ends in its band has settled", "engine/steady.py",
          "and (turns > CALM_TURNS or legs > CALM_LEGS)", "and turns >= 0.0", WHOLE),
    fault("a course is looked for in few periods", "engine/steady.py",
          "MOST_CHEAP_PERIODS = 80", "MOST_CHEAP_PERIODS = 14", WHOLE),
    fault("pulses at full come alike wherever they come", "engine/at_full.py",
          "SAME_PHASE = 1e-6", "SAME_PHASE = 0.05", "tests/engine/test_repeats.py", WHOLE),
    fault("the later half of many cycles carries what the first does", "engine/orbits.py",
          "last + _looked_up(middle, self.cycle.nodes, last)", "2.0 * last",
          "tests/engine/test_trace.py", "tests/engine/test_trace_generated.py", WHOLE),
    fault("turns that drift carry what the kept one does", "engine/strip.py",
          "if turns.drift():", "if False:", WHOLE, "tests/engine/test_trace_generated.py"),
    fault("turns that drift are laid as if the first were the last before", "engine/turns.py",
          "n, above = self.times, self.begin_c - self.opening_c",
          "n, above = self.times, self.closing_c - self.opening_c",
          "tests/engine/test_turns.py"),
    fault("a start-up ends behind turns that were passed over", "engine/progress.py",
          "self.phase_end += self.t - begin_s", "self.phase_end += 0.0", WHOLE,
          "tests/engine/test_repeats.py"),
    fault("a jump that connects a device cuts it off", "engine/motions.py",
          "off = regime.charge_of_cut_off(", "off = regime.charge_at_terminal(", WHOLE),
    fault("a course that is cut off has settled where it moves little", "engine/steady.py",
          "if back and _still_to_go(orbit, back) > near:", "if False:", WHOLE),
    fault("what fills a bulk capacitance is no load", "engine/strip.py",
          "until[LOAD, :n] += np.cumsum(self._inrush_c)",
          "until[LOAD, :n] += 0.0 * np.cumsum(self._inrush_c)",
          "tests/engine/test_trace.py", "tests/engine/test_trace_generated.py", WHOLE),
    fault("the batch lets no light lift the terminals", "engine/many.py",
          "np.maximum(given_a, 0.0) * esr", "0.0 * np.maximum(given_a, 0.0) * esr",
          "tests/engine/test_many.py", "tests/advice/test_many_and_one.py"),
    fault("a start-up takes no inrush in the account", "engine/audit.py",
          "start_up_j=float(totals[Post.START_UP]) + inrush",
          "start_up_j=float(totals[Post.START_UP])",
          "tests/engine/test_audit.py", "tests/advice/test_budget.py"),
    # advice
    fault("cut-offs a week are counted a day", "advice/answers.py",
          "float(read.cut_offs[0] / read.span_s[0]) * WEEK_S",
          "float(read.cut_offs[0] / read.span_s[0]) * WEEK_S / 7.0",
          WHOLE, "tests/advice/test_cases.py"),
    fault("a supercapacitor is charged to its full rating in the contest", "advice/contest.py",
          "rated_v * (1.0 if store.kind == \"cell\" else HEADROOM)", "rated_v",
          "tests/advice/test_contest.py"),
    fault("a dark stretch is judged without the reserve", "advice/readings/dark.py",
          "    if engine.system.load.reserve_j <= 0:\n        return run.span_s",
          "    if True:\n        return run.span_s",
          WHOLE, "tests/advice/test_readings.py", "tests/advice/test_checks.py"),
    fault("the closure counts hours for days", "advice/readings/one.py",
          "case.scenario.margins.closure_days * DAY_S",
          "case.scenario.margins.closure_days * DAY_S / 24.0",
          WHOLE, "tests/advice/test_readings.py", "tests/advice/test_checks.py"),
    fault("diode leak is no need of the balance", "advice/readings/one.py",
          "rates) + back", "rates) + 0.0 * back",
          WHOLE, "tests/advice/test_readings.py", "tests/advice/test_many_and_one.py"),
    fault("a cell charged below freezing is within its ratings", "scenario/ratings.py",
          'if self.key == "too_cold":\n            return np.where(self.seen > self.rated, np.inf, '
          "0.0)",
          'if self.key == "too_cold":\n            return np.where(self.seen > self.rated, np.inf, '
          "np.inf)",
          WHOLE,
          "tests/scenario", "tests/advice/test_checks.py", "tests/advice/test_advice_texts.py"),
    fault("a course with a cut-off serves all", "advice/checks.py",
          "return np.asarray(all_of_it & (found.cut_offs == 0))", "return np.asarray(all_of_it)",
          "tests/advice/test_checks.py", WHOLE),
    fault("half a run counts as one although operations wait", "advice/checks.py",
          "slack = np.where((found.served > 0) | ~asked.waits, HALF_A_RUN, 0.0)",
          "slack = np.full(found.served.shape, HALF_A_RUN)", "tests/advice/test_checks.py", WHOLE),
    fault("a course that works rescues a late start", "advice/checks.py",
          'for name in ("starts", "ratings"):', 'for name in ("ratings",):',
          "tests/advice/test_checks.py", WHOLE),
    fault("what misses a closure is rescued", "advice/checks.py",
          '(checks["dark"].margin >= 1.0) | ~(found.dark.closure | (asked.reserve_j > 0))',
          '(checks["dark"].margin >= 0.0) | ~(found.dark.closure | (asked.reserve_j > 0))',
          "tests/advice/test_checks.py", WHOLE),
    fault("service governs where others fail too", "advice/verdict.py",
          '(order[c.state], c.name == "service", c.reserve)', "(order[c.state], c.reserve)",
          "tests/advice/test_checks.py"),
    fault("an edge lies where it no longer holds", "advice/edges.py",
          "Edge(value=sides[0], beyond=sides[1])", "Edge(value=sides[1], beyond=sides[0])",
          "tests/advice/test_edges.py"),
    fault("the batch is believed without a probe", "advice/edges.py",
          "if self.probes and not self.probe():", "if False:", "tests/advice/test_edges.py"),
    fault("of two over-voltages the smaller is told", "advice/safety.py",
          "worst = max(over, key=lambda row: float(row.seen))",
          "worst = min(over, key=lambda row: float(row.seen))",
          "tests/advice/test_advice_texts.py", "tests/advice/test_cases.py"),
    fault("a lock has no caution", "advice/safety.py",
          'if scenario.load.actuator == "door_lock":', "if False:",
          "tests/advice/test_cautions.py", "tests/advice/test_checks.py",
          "tests/advice/test_advice_texts.py"),
    fault("most operations a day forgets the windows", "advice/reach.py",
          "open_s = DAY_S * _open_share(op.schedule)", "open_s = DAY_S",
          "tests/advice/test_reach.py"),
    fault("a bound of a search is an edge", "advice/reach.py",
          'return Reach(found.low, "less than") if found.at_low else Reach(found.high, "none")',
          "return Reach(found.low) if found.at_low else Reach(found.high)",
          "tests/advice/test_reach.py"),
    fault("a store that holds more lasts longer though operations wait", "advice/readings/dark.py",
          "if not all(isinstance(s, Periodic) and s.always for s in schedules):", "if False:",
          WHOLE),
    fault("a reserve is looked for along a generator", "advice/readings/dark.py",
          "at_c = cycle.begins(leg.begin_c, middle)",
          "at_c = cycle.generator.advance(leg.begin_c, middle * cycle.length_s)",
          "tests/advice/test_readings.py"),
    fault("a capture may droop five times as much", "advice/capture/phases.py",
          "MOST_ERROR = 0.01", "MOST_ERROR = 0.05", "tests/advice/test_capture.py"),
    # files, state
    fault("a saved file still counts as migrated", "state/document.py",
          "self.path, self.migrated_from = target, None", "self.path = target",
          "tests/state/test_document.py"),
    fault("an opened file forgets that it was migrated", "state/document.py",
          "loaded.path, loaded.migrated_from, folder, study)", "loaded.path, None, folder, study)",
          "tests/state/test_document.py"),
    fault("late break-evens are shown for another design", "state/solver.py",
          "self._edges.set_steps(partial(at_rest_steps, self._operation, self._held))", "pass",
          "tests/state/test_solver.py"),
    fault("late reach is shown for another design", "state/solver.py",
          "self.result is not None and self.result.scenario == self._document.scenario",
          "self.result is not None", "tests/state/test_solver.py"),
    fault("a long gap of a log holds the reading before it", "files/held.py",
          "else np.where(short, lux[last[:-1]], 0.0)", "else np.where(True, lux[last[:-1]], 0.0)",
          "tests/files/test_logs.py"),
    fault("an offset is taken below nothing", "files/held.py",
          "lux = np.maximum(lux - offset_lx, 0.0)", "lux = lux - offset_lx",
          "tests/files/test_logs.py"),
    fault("a key given twice is taken", "files/json_text.py",
          "Counter(key for key, _ in pairs).items() if times > 1]",
          "Counter(key for key, _ in pairs).items() if times > 2]",
          "tests/files/test_scenario_json.py"),
    fault("a file of an older version is overwritten", "files/scenario_json.py",
          "if not replace_older and (version", "if False and (version",
          "tests/files/test_scenario_json.py"),
    fault("a line of version 1 loses what it left out", "files/scenario_json.py",
          "line.setdefault(key, value)", "pass", "tests/files/test_scenario_json.py"),
    fault("a log that changed is not read again", "files/logs.py",
          "changed = (found.st_mtime_ns, found.st_size)", "changed = (0, 0)",
          "tests/files/test_logs.py"),
    fault("a sweep goes on one row late", "files/sweep.py",
          "begins = range(done, len(sweep), CHUNK)", "begins = range(done + 1, len(sweep), CHUNK)",
          "tests/files/test_sweep.py"),
    fault("edits of two gestures are one step of undo", "state/document.py",
          "        self._gesture += 1", "        self._gesture += 0",
          "tests/state/test_document.py"),
    fault("a superseded answer is shown", "state/jobs.py",
          "        if number == self._newest[key]:\n            if why",
          "        if True:\n            if why", "tests/state/test_jobs.py"),
    fault("a file changed by another counts as known", "state/document.py",
          'return "as known" if now == self._digests else "changed"', 'return "as known"',
          "tests/state/test_document.py"),
    # words
    fault("a margin just below 1 reads as a pass", "words/figures.py",
          "math.floor(margin * 100 + 1e-9) / 100:.2f", "margin:.2f",
          "tests/words", "tests/advice/test_advice_texts.py"),
    fault("a share is rounded up to all", "advice/sentences.py",
          'figure("99.99" if text == "100" else text)', "figure(text)",
          "tests/words/test_answers.py", "tests/advice/test_advice_texts.py"),
    fault("more than a bound reads as the bound", "words/answers.py",
          'return say("more than {value}", value=text)', "return text",
          "tests/words/test_answers.py"),
    fault("a closure in days is told in hours", "words/answers.py",
          'show(value * 86_400.0, "s")', 'show(value * 3_600.0, "s")',
          "tests/words/test_answers.py"),
)  # fmt: skip


def copied(folder):
    """A copy of the sources to do harm to."""
    for name in COPIED:
        source = ROOT / name
        if source.is_dir():
            left = ("__pycache__", "bench") if name == "tests" else ("__pycache__",)
            shutil.copytree(source, folder / name, ignore=shutil.ignore_patterns(*left))
        elif source.exists():
            shutil.copy2(source, folder / name)


def noticed(folder, tests):
    """The first test that fails, "" where none does, None where they do not end."""
    there = sorted((t for t in tests if (folder / t).exists()), key=lambda t: t == WHOLE)
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
    options.add_argument("--begin", type=int, default=1, help="number of the first fault")
    options.add_argument("--end", type=int, default=len(FAULTS), help="number of the last")
    options.add_argument("--control", action="store_true", help="first run all without a fault")
    options.add_argument("--list", action="store_true", help="name the faults and end")
    given = options.parse_args()
    chosen = [f for f in FAULTS[given.begin - 1 : given.end] if given.only in f.name]
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
            error = seen is not None and seen.startswith("ERROR")
            word = "no end" if seen is None else "error" if error else "noticed"
            word = "SURVIVED" if seen == "" else word
            print(f"{word:10s} {one.name}   {seen or ''}", flush=True)
    print(f"{len(chosen)} faults, {len(survived)} survived, {len(stale)} without a place")
    return len(survived)


if __name__ == "__main__":
    sys.exit(main())
