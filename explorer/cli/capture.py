"""The command that turns a captured load current into an operation."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from explorer.cli.telling import sentence_of, telling
from explorer.files.table_reader.told import Told

BAD_INPUT = 3


class Moment(click.ParamType[float]):
    """A time from the beginning of a capture, with any unit of time: ``12 ms``, ``1.5``."""

    name = "time"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Value in seconds."""
        from explorer.quantity import parse

        try:
            return parse(str(value), "s")
        except ValueError as fault:
            self.fail(str(fault), param, ctx)


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--from", "from_s", type=Moment(), help="Where the cycle begins.")
@click.option("--to", "to_s", type=Moment(), help="Where it ends.")
@click.option("--name", default="captured", show_default=True, help="Name of the operation.")
@click.option(
    "--scenario", "into", type=click.Path(path_type=Path),
    help="Scenario that gets the operation instead of its own, and the sleep current.",
)
@click.option(
    "-o", "--output", type=click.Path(path_type=Path),
    help="File to write: that scenario with the captured load.",
)
@click.option(
    "--part", "part_file", type=click.Path(path_type=Path),
    help="File to write: the load as a part, with all else as in the scenario if one is given.",
)
@click.option(
    "--keep-schedule", "keeps_schedule", is_flag=True,
    help="The operation runs when the scenario's first one ran, not once in every cycle.",
)
@telling
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_context
def capture(
    context: click.Context,
    file: Path,
    from_s: float | None,
    to_s: float | None,
    name: str,
    into: Path | None,
    output: Path | None,
    part_file: Path | None,
    keeps_schedule: bool,
    told: Told,
    as_json: bool,
) -> None:
    """Turn a captured load current FILE into an operation.

    FILE is a table with a column of times and one of currents, in any units, as a power analyser
    or an oscilloscope writes it. One cycle of it becomes at most 40 phases that take exactly its
    charge and let any store droop as deep as it did, within 1 %. Without --from and --to the first
    whole cycle is taken.
    """
    from explorer.advice.capture.habit import habit
    from explorer.advice.capture.operation import taken
    from explorer.advice.capture.phases import reduced
    from explorer.files.captures import read_capture
    from explorer.files.part_json import save_part
    from explorer.files.scenario_json import load_scenario, save_scenario
    from explorer.scenario.model import Scenario, with_value
    from explorer.scenario.part import part_from

    try:
        if output is not None and into is None:
            raise ValueError("Give the --scenario that gets the load, or --part.")
        if into is not None and output is None and part_file is None:
            raise ValueError("Give the file to write, with --output or --part.")
        for target in (output, part_file):
            _keep_inputs(target, (file, into))
        found = read_capture(file, told)
        known = habit(found)
        begin = known.from_s if from_s is None else from_s
        end = _end(begin, known) if to_s is None else to_s
        if to_s is None:
            end = min(end, found.span_s)
        one = reduced(found.between(begin, end), known)
        if output is not None or part_file is not None:
            scenario = Scenario() if into is None else load_scenario(into).scenario
            load = taken(scenario.load, one, name, keeps_schedule=keeps_schedule)
        if output is not None:
            save_scenario(output, with_value(scenario, "load", load))
        if part_file is not None:
            source = f"captured current, {found.name}"
            save_part(part_file, part_from("load", load, title=name, source=source))
    except (ValueError, ArithmeticError) as fault:
        click.echo(sentence_of(fault), err=True)
        context.exit(BAD_INPUT)
    if as_json:
        report = _report(file, found, known, one, begin)
        click.echo(json.dumps(report, indent=2, ensure_ascii=False, allow_nan=False))
    else:
        click.echo("\n".join(_page(found, known, one, begin)))
        for written in (output, part_file):
            if written is not None:
                click.echo(f"{written}: written.")


def _keep_inputs(output: Path | None, inputs: tuple[Path | None, ...]) -> None:
    """Refuse to write over what the operation is made from."""
    for used in inputs:
        if output and used and output.exists() and used.exists() and output.samefile(used):
            raise ValueError(f"{output} is what the load is made from; give another name.")


def _end(begin: float, known: Any) -> float:
    """Where a cycle from a moment ends when nothing was said."""
    length: float = known.to_s - known.from_s
    return begin + length


def _page(found: Any, known: Any, one: Any, begin: float) -> list[str]:
    from explorer.quantity import show
    from explorer.words import capture as words

    lines = [*words.sentences(found, known, one, begin), ""]
    rows = [("from", "lasts", "current")]
    edges, currents = one.steps()
    for start, lasts, amps in zip(edges[:-2], one.duration_s, currents[:-1], strict=True):
        rows.append((show(start, "s", 4), show(lasts, "s", 4), show(amps, "A", 4)))
    return lines + [f"{a:>12}{b:>12}{c:>12}" for a, b, c in rows]


def _report(file: Path, found: Any, known: Any, one: Any, begin: float) -> dict[str, Any]:
    from explorer.words import capture as words

    table = words.phases_table(one)
    return {
        "file": str(file),
        "readings": len(found.time_s),
        "span_s": found.span_s,
        "notes": list(found.notes),
        "sleep_A": known.sleep_a,
        "period_s": known.period_s,
        "cycle": {"from_s": begin, "length_s": one.interval_s, "charge_C": one.charge_c},
        "load_sleep_A": one.sleep_a,
        "phases": [dict(zip(table, row, strict=True)) for row in zip(*table.values(), strict=True)],
        "charge_error": one.charge_error,
        "droop_error": one.droop_error,
    }
