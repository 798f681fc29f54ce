"""The command line. It imports neither Qt nor the plots except to open the window."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import click

from explorer.advice.assess import Assessment, assess
from explorer.advice.answers import finite
from explorer.files import scenario_json, tables
from explorer.files.disk import FileError
from explorer.files.logs import resolve_log
from explorer.quantity import show
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario

EXIT_CODES = {"runs": 0, "marginal": 1, "falls_short": 2}
BAD_INPUT = 3


@click.group(invoke_without_command=True, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="gloaming")
@click.pass_context
def commands(context: click.Context) -> None:
    """Can a small device live on the light where it will hang?

    Without a command the window opens.
    """
    if context.invoked_subcommand is None:
        sys.exit(_open_window([]))


@commands.command("open")
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
def open_files(files: tuple[Path, ...]) -> None:
    """Open the window on scenario FILES."""
    sys.exit(_open_window([str(f) for f in files]))


@commands.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print one JSON array.")
def check(files: tuple[Path, ...], as_json: bool) -> None:
    """Verdict, checks and answers of scenario FILES.

    Ends with 0 for Runs, 1 for Marginal, 2 for Falls short and 3 for bad input; of several
    files the worst counts.
    """
    reports: list[dict[str, Any]] = []
    worst = 0
    for path in files:
        try:
            scenario, log = _read(path)
            found = assess(scenario, log, columns=50)
        except (FileError, ValueError) as fault:
            worst = BAD_INPUT
            reports.append({"file": str(path), "verdict": "error", "error": str(fault),
                            "checks": [], "answers": {}})
            if not as_json:
                click.echo(str(fault), err=True)
            continue
        worst = max(worst, EXIT_CODES[found.verdict.state])
        reports.append(_report(path, found))
        if not as_json:
            _print(path, found)
    if as_json:
        click.echo(json.dumps(reports, indent=2, ensure_ascii=False, allow_nan=False))
    sys.exit(worst)


@commands.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--days", type=click.FloatRange(min=0, min_open=True, max=36_500),
              help="Length; one period of the light when left out.")
@click.option("--step", type=click.FloatRange(min=0, min_open=True),
              help="Seconds between rows; about a thousandth of the length when left out.")
@click.option("-o", "--output", required=True, type=click.Path(path_type=Path),
              help="CSV file to write.")
def trace(file: Path, days: float | None, step: float | None, output: Path) -> None:
    """Write the run of a scenario FILE as a table."""
    try:
        scenario, log = _read(file)
        span = None if days is None else days * 86_400.0
        found = assess(scenario, log, span_s=span, columns=1000)
        rows = found.trace
        if step is not None:
            rows = tables.every(rows, step)
        tables.write_trace(output, rows)
    except (FileError, ValueError) as fault:
        click.echo(str(fault), err=True)
        sys.exit(BAD_INPUT)
    click.echo(f"{output}: {len(rows.time_s)} rows, {show(float(rows.time_s[-1]), 's')}.")


@commands.command()
def schema() -> None:
    """Print the JSON Schema of scenario files."""
    click.echo(json.dumps(scenario_json.schema(), indent=2, ensure_ascii=False))


def main() -> None:
    """Entry point of the command."""
    commands(prog_name="gloaming")


def _read(path: Path) -> tuple[Scenario, LightLog | None]:
    loaded = scenario_json.load_scenario(path)
    return loaded.scenario, resolve_log(loaded.scenario, path)


def _report(path: Path, found: Assessment) -> dict[str, Any]:
    return {
        "file": str(path),
        "title": found.scenario.title,
        "verdict": found.verdict.state,
        "governing": found.verdict.governing.name,
        "design_margin": found.scenario.design_margin,
        "checks": [
            {
                "name": c.name, "value": finite(c.value), "limit": finite(c.limit),
                "unit": c.unit, "margin": c.margin, "wanted_margin": c.wanted,
                "state": c.state, "sentence": c.sentence,
            }
            for c in found.verdict.checks
        ],
        "hazards": [{"key": h.key, "sentence": h.sentence} for h in found.verdict.hazards],
        "answers": {name: finite(value) for name, value in found.answers.items()},
    }


def _print(path: Path, found: Assessment) -> None:
    verdict = found.verdict
    click.echo(f"{found.scenario.title} ({path}): {verdict.word}")
    click.echo(f"  {verdict.governing.sentence}")
    for c in verdict.checks:
        click.echo(f"  {c.name:8s} {c.state.replace('_', ' '):12s} {show(c.margin, '×'):>7s}  "
                   f"{c.sentence}")
    for h in verdict.hazards:
        click.echo(f"  Hazard, {h.title.lower()}: {h.sentence}")
    for name, value in found.answers.items():
        label, _, unit = name.rpartition("_")
        units = {"s", "V", "A", "W", "J"}
        text = show(value, unit) if unit in units else show(value, "", infinite="no limit")
        click.echo(f"  {(label if unit in units else name).replace('_', ' '):22s} {text}")


def _open_window(files: list[str]) -> int:
    try:
        from explorer.app import run
    except ImportError as fault:
        click.echo(_missing_library(fault), err=True)
        return BAD_INPUT
    return run(files)


def _missing_library(fault: ImportError) -> str:
    """A sentence instead of a traceback where Qt cannot be loaded."""
    text = str(fault)
    library = text.split(":")[0] if ".so" in text else ""
    if not library:
        return f"The window cannot open, because {text}. Install the program again with pip."
    package = {
        "libEGL.so.1": "libegl1", "libGL.so.1": "libgl1", "libOpenGL.so.0": "libopengl0",
        "libxkbcommon-x11.so.0": "libxkbcommon-x11-0", "libxcb-cursor.so.0": "libxcb-cursor0",
        "libfontconfig.so.1": "libfontconfig1", "libdbus-1.so.3": "libdbus-1-3",
        "libglib-2.0.so.0": "libglib2.0-0", "libxkbcommon.so.0": "libxkbcommon0",
    }.get(library, "the package that holds it")
    return (
        f"The window cannot open: the system library {library} is missing. On Debian or Ubuntu "
        f"type: sudo apt-get install {package}"
    )
