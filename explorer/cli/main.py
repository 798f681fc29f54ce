"""The command line. It imports neither Qt nor the plots except to open the window."""

from __future__ import annotations

import json
import os
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from explorer.advice.answers import begins_full, finite
from explorer.advice.assess import Assessment, assess, run_for
from explorer.advice.case import Case
from explorer.advice.elsewhere import elsewhere
from explorer.advice.reach import Reach, reach
from explorer.advice.readings.required import required
from explorer.advice.required_sentences import required_sentence
from explorer.advice.sold import sold_span
from explorer.cli.later import Later
from explorer.cli.stand_keeper import in_process, keep
from explorer.cli.telling import ReadingLine
from explorer.cli.year import year_section
from explorer.files import scenario_json, tables
from explorer.files.beside import beside_path, resolve_case
from explorer.files.disk import FileError
from explorer.files.trust import TRUST
from explorer.quantity import parse, show
from explorer.scenario.course import log_scale
from explorer.scenario.model import Scenario
from explorer.scenario.year_light import year_scale
from explorer.words.console import Outcome, one_line, page, summary
from explorer.words.light_log import log_sentences
from explorer.words.panel import sold_sentence

EXIT_CODES: dict[Outcome, int] = {"runs": 0, "marginal": 1, "falls_short": 2}
BAD_INPUT = 3
INTERRUPTED = 130
"""What a shell reports of a command that was stopped by Ctrl-C (128 + signal 2, POSIX)."""
NO_READER = 141
"""The same of a command whose reader has gone (128 + signal 13)."""
LONGEST_DAYS = 36_500.0
ROWS = 1000
"""About so many rows has a table without an even step."""
FAULTS = (FileError, ValueError, ArithmeticError)
"""What a bad file or an impossible design may raise; each text is a sentence."""


class Duration(click.ParamType[float]):
    """A time above zero, with any unit of time: ``7``, ``12 h``, ``10min``."""

    def __init__(self, unit: str, most: float) -> None:
        self.name, self.unit, self.most = unit, unit, most

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Value in the type's unit."""
        try:
            amount = parse(str(value), self.unit)
        except ValueError as fault:
            self.fail(str(fault), param, ctx)
        if not 0.0 < amount <= self.most:
            self.fail(
                f"{amount:.12g} {self.unit} is out of range; allowed is more than 0 and at most "
                f"{self.most:.12g} {self.unit}.",
                param,
                ctx,
            )
        return amount


@click.group(
    cls=Later, invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.option("--version", "show_version", is_flag=True, help="Print the version and exit.")
@click.option(
    "--any-log", is_flag=True,
    help="Let scenarios read light logs and weather from outside their own folder.",
)
@click.pass_context
def commands(context: click.Context, show_version: bool, any_log: bool) -> None:
    """Can a small device live on the light where it will hang?

    Without a command the window opens.
    """
    TRUST.everything = any_log
    if show_version:
        click.echo(f"gloaming {_version()}")
        context.exit()
    if context.invoked_subcommand is None:
        context.exit(_open_window([]))


@commands.command("open")
@click.argument("file", type=click.Path(path_type=Path))
@click.pass_context
def open_file(context: click.Context, file: Path) -> None:
    """Open the window on a scenario FILE."""
    context.exit(_open_window([str(file)]))


@commands.command()
@click.argument("setup", required=False, type=click.Path(path_type=Path))
@click.option("--once", is_flag=True, help="Do not start again after a crash.")
@click.pass_context
def stand(context: click.Context, setup: Path | None, once: bool) -> None:
    """Run the exhibition stand, full screen and without dialogs.

    SETUP is a file that the set-up page of the stand has written; when left out, the stand runs as
    it was set up last. After a crash it starts again by itself. To leave, hold Esc for 3 s.
    """
    if once:
        from explorer.app import run

        context.exit(run(stand=True, stand_file=setup))
    words = ["stand", "--once", *([str(setup)] if setup else [])]
    context.exit(keep(lambda: in_process(words), _say_aside))


@commands.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print one JSON array, an object per file.")
@click.pass_context
def check(context: click.Context, files: tuple[Path, ...], as_json: bool) -> None:
    """Verdict, checks and answers of scenario FILES.

    Exit code: 0 Runs, 1 Marginal, 2 Falls short, 3 bad input; of several
    files the worst counts.
    """
    reports: list[dict[str, Any]] = []
    outcomes: list[tuple[Outcome, str]] = []
    worst = 0
    for path in files:
        try:
            case = _read(path)
            found = assess(case)
            found = replace(found, answers={**found.answers, **reach(case)})
        except FAULTS as fault:
            worst = BAD_INPUT
            reports.append(
                {"file": str(path), "verdict": "error", "error": _sentence(fault), "checks": [],
                 "answers": {}}
            )  # fmt: skip
            outcomes.append(("error", str(path)))
            _complain(fault)
            continue
        worst = max(worst, EXIT_CODES[found.verdict.state])
        if as_json:
            reports.append(_report(path, found))
        else:
            click.echo(("\n" if outcomes else "") + page(str(path), found))
        outcomes.append((found.verdict.state, one_line(case.scenario.title) or str(path)))
    if as_json:
        click.echo(json.dumps(reports, indent=2, ensure_ascii=False, allow_nan=False))
    elif len(files) > 1:
        click.echo("\n" + summary(outcomes))
    context.exit(worst)


@commands.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--days",
    type=Duration("d", LONGEST_DAYS),
    help="Length, in days or with a unit; one period of the light when left out.",
)
@click.option(
    "--step",
    type=Duration("s", LONGEST_DAYS * 86_400.0),
    help="Time between rows, in seconds or with a unit. When left out, rows stand where something "
    "happens, about a thousand.",
)
@click.option(
    "-o", "--output", required=True, type=click.Path(path_type=Path), help="CSV file to write."
)
@click.pass_context
def trace(
    context: click.Context, file: Path, days: float | None, step: float | None, output: Path
) -> None:
    """Compute the trace of a scenario FILE and write it as CSV.

    Columns are time_s, store_V, terminal_V, terminal_min_V, harvest_A, load_A, leakage_A and
    connected. Voltages are those of the row's moment; terminal_min_V is the lowest and the
    currents are the means of the step from there to the next row. load_A holds what load and
    regulator draw and the charge that fills the bulk capacitance at a connect, in the row whose
    step begins at the connect or holds it; leakage_A the store's leakage and balancing and the
    charger's own current. So harvest_A less load_A less leakage_A, times the step, summed over
    all rows, is what the store holds more at the end than at the beginning.
    """
    try:
        case = _read(file)
        _keep_inputs(file, case.scenario, output)
        span_s = case.period_s if days is None else days * 86_400.0
        if step is not None:
            tables.row_count(span_s, step)  # too many are refused before the work
        run = run_for(case, span_s)
        rows = run.eventful(ROWS) if step is None else run.steps(step)
        tables.write_trace(output, rows)
    except FAULTS as fault:
        _complain(fault)
        context.exit(BAD_INPUT)
    click.echo(f"{output}: {len(rows.time_s)} rows, {show(run.span_s, 's')}.")
    if run.span_s < 0.99 * span_s:
        click.echo(
            f"More happens than can be followed, so the table ends after {show(run.span_s, 's')}.",
            err=True,
        )


@commands.command()
@click.argument("kind", type=click.Choice(["scenario", "part"]), default="scenario")
def schema(kind: str) -> None:
    """Print the JSON Schema of scenario files, or that of files of parts."""
    from explorer.files import part_json  # few ask for it

    found = part_json.part_schema() if kind == "part" else scenario_json.schema()
    click.echo(json.dumps(found, indent=2, ensure_ascii=False))


@commands.command(hidden=True)
def worker() -> None:
    """Answer the questions of a window; the program starts itself so."""
    from explorer.state import worker as desk

    desk.main()


def main() -> None:
    """Entry point of the command: every way to end, quiet and with its exit status."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal that knows no µ shows a mark instead
    try:
        # Click would end a wrong call with 2, which stands for Falls short here.
        status = commands.main(prog_name="gloaming", standalone_mode=False)
        sys.stdout.flush()
    except click.ClickException as fault:
        fault.show()
        status = BAD_INPUT
    except click.Abort:
        status = INTERRUPTED
    except (BrokenPipeError, SystemExit) as end:  # click turns the first into the second
        if isinstance(end, SystemExit) and not end.code:  # a shell asked what may follow
            sys.stdout.flush()
            sys.exit(0)
        # Whoever reads has seen enough, as with `gloaming check FILE | head -1`.
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        status = NO_READER
    sys.exit(status if isinstance(status, int) else 0)


def _read(path: Path) -> Case:
    scenario = scenario_json.load_scenario(path).scenario
    return resolve_case(scenario, path, ReadingLine())


def _keep_inputs(file: Path, scenario: Scenario, output: Path) -> None:
    """Refuse to write a table over what it is made from."""
    used = beside_path(scenario, file)
    for source in (file, *([used] if used else [])):
        if output.exists() and source.exists() and output.samefile(source):
            raise FileError(f"{output} is what the table is made from; give another name.")


def _report(path: Path, found: Assessment) -> dict[str, Any]:
    return {
        "file": str(path),
        "title": found.scenario.title,
        "verdict": found.verdict.state,
        "governing": found.verdict.governing.name,
        "design_margin": found.scenario.design_margin,
        "checks": [
            {
                "name": c.name,
                "value": finite(c.value),
                "limit": finite(c.limit),
                "unit": c.unit,
                "margin": finite(c.margin),
                "wanted_margin": c.wanted,
                "state": c.state,
                "at_least": c.at_least,
                "sentence": c.sentence,
            }
            for c in found.verdict.checks
        ],
        "requirements": [
            {
                "name": one.key,
                "value": finite(float(one.value[0])),
                "limit": float(one.limit[0]),
                "unit": one.unit,
                "margin": finite(float(one.margin[0])),
                "light_lx": None if one.light_lx is None else float(one.light_lx[0]),
                "sentence": required_sentence(one),
            }
            for one in required(found.case)
        ],
        "hazards": [{"key": h.key, "sentence": h.sentence} for h in found.verdict.hazards],
        "elsewhere": [
            {
                "name": one.name, "light_lx": one.light_lx, "first_charge_s": finite(one.ready_s),
                "full_charge_s": finite(one.full_s), "operations_per_hour": one.per_hour,
                "balance_ratio": finite(one.balance),
            }
            for one in elsewhere(found.case)
        ],
        "answers": {name: _known(value) for name, value in found.answers.items()},
        "answers_begin_with": "full_store" if begins_full(found.case) else "empty_store",
        "bounds": {
            name: value.bound
            for name, value in found.answers.items()
            if isinstance(value, Reach) and value.bound
        },
        "panel_span": _panel_span(found),
        "light_log": _light_log(found),
        "year": year_section(found.case),
        "daylight": _daylight(found),
    }


def _light_log(found: Assessment) -> dict[str, Any] | None:
    """What was found in the light log, and the scale in force; none where there is no log."""
    log = found.case.log
    if log is None:
        return None
    return {
        "file": log.name,
        "readings": log.readings,
        "start": None if log.start is None else log.start.isoformat(),
        "span_s": log.duration_s,
        "step_s": log.step_s,
        "gaps": len(log.gaps),
        "without_reading_s": sum(to - since for since, to in log.gaps),
        "lowest_lx": log.floor_lx,
        "mean_lit_lx": log.mean_lit_lx,
        "scale": log_scale(found.scenario.light, log),
        "sentences": list(log_sentences(found.case)),
    }


def _daylight(found: Assessment) -> dict[str, Any] | None:
    """What a year of daylight stands on; none where the light follows another pattern."""
    year = found.case.year
    if year is None:
        return None
    low, high = year.real_over_computed
    return {
        "source": year.daylight_source,
        "mean_lit_lx": year.mean_lit_lx,
        "factor_of_reading": year.factor,
        "scale": year_scale(found.scenario.light.illuminance_lx, year),
        "real_over_computed": [low, high],
        "sentences": list(log_sentences(found.case)),
    }


def _known(value: float) -> float | None:
    """A number for JSON; None for never, for no end, and where no value is enough."""
    if isinstance(value, Reach) and value.bound == "none":
        return None
    return finite(float(value))


def _panel_span(found: Assessment) -> dict[str, Any] | None:
    """How far modules on sale lie around the panel by technology; none with a data sheet."""
    span = sold_span(found.case)
    if span is None:
        return None
    sentence = sold_sentence(found.case)
    return {"low": span[0], "high": span[1], "sentence": sentence}


def _sentence(fault: Exception) -> str:
    if isinstance(fault, ArithmeticError):
        return f"This scenario cannot be computed: {fault}."
    return str(fault)


def _complain(fault: Exception) -> None:
    for line in _sentence(fault).splitlines():
        click.echo(one_line(line), err=True)


def _open_window(files: list[str]) -> int:
    from explorer.app import run

    return run(files)


def _say_aside(sentence: str) -> None:
    click.echo(sentence, err=True)


def _version() -> str:
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version("gloaming")
    except PackageNotFoundError:
        return "(not installed)"
