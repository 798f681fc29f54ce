"""The command that holds a forecast against logged runs."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast, get_args

import click

from explorer.cli.conditions import conditions, options
from explorer.cli.telling import sentence_of, telling
from explorer.files.table_reader.told import Told
from explorer.quantity import parse
from explorer.scenario.part import PartKind
from explorer.text import joined, say

if TYPE_CHECKING:
    from explorer.cli.bench_report import Found

BAD_INPUT = 3


def _shares(
    _: click.Context, param: click.Parameter, texts: tuple[str, ...]
) -> dict[str, float]:
    """Shares under their paths."""
    found = {}
    for text in texts:
        path, _sign, amount = text.partition("=")
        try:
            found[path.strip()] = parse(amount, "")
        except ValueError as fault:
            raise click.BadParameter(str(fault), param=param) from None
        if not 0.0 <= found[path.strip()] <= 1.0:
            raise click.BadParameter(f"{text} is out of range; from 0 to 100 %.", param=param)
    return found


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.argument("logs", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option(
    "--fit", "paths", multiple=True, metavar="PATH", help="A value to fit; may be given again."
)
@options
@click.option(
    "--later", "later", multiple=True, metavar="LOG", type=click.Path(path_type=Path),
    help="A log of the same device months later, fitted by itself to see what has changed; counts "
    "behind the others; may be given again.",
)  # fmt: skip
@click.option(
    "--other-meter", is_flag=True, help="The later logs were written with other meters."
)
@telling
@click.option(
    "--known", "known", multiple=True, metavar="PATH=SHARE", callback=_shares,
    help="How well a value that is not fitted is known, such as load.sleep_A=0.5%; may be given "
    "again.",
)  # fmt: skip
@click.option(
    "--next", "with_next", is_flag=True,
    help="Say which measurement to make next, and by how much it would narrow each value.",
)  # fmt: skip
@click.option(
    "--part", "parts", multiple=True, metavar="KIND=FILE",
    help="Write what is determined of the panel, charger, store or load as a part with its ±, such "
    "as store=store.json; may be given again.",
)  # fmt: skip
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_context
def bench(
    context: click.Context,
    /,
    file: Path,
    logs: tuple[Path, ...],
    paths: tuple[str, ...],
    later: tuple[Path, ...],
    other_meter: bool,
    told: Told,
    known: dict[str, float],
    with_next: bool,
    parts: tuple[str, ...],
    as_json: bool,
    **each: tuple[str, ...],
) -> None:
    """Hold the forecast of a scenario FILE against logged runs LOGS of the device.

    A log is a table with the columns time and store_V (or store_mV), and lux where the light was
    logged too. --fit store.capacitance_F searches the value with which the forecast follows the
    logs best, with its ± at 95 %: what the readings leave open, and what the values that are not
    fitted may be wrong by. Several logs of one device are fitted together; --light 2=dark and
    --device '2=20 mA' say what was otherwise than in the design.
    """
    from explorer.advice.bench import drift as dr
    from explorer.advice.bench import fit as ft
    from explorer.advice.bench import forecast as bn
    from explorer.advice.bench import outlook as ol
    from explorer.advice.bench.parameters import parameter
    from explorer.cli.bench_report import Found, page, report
    from explorer.files.bench_log import read_bench_log
    from explorer.files.beside import resolve_case
    from explorer.files.scenario_json import load_scenario

    try:
        scenario = load_scenario(file).scenario
        case = resolve_case(scenario, file)
        names = (*logs, *later)
        under = conditions(len(names), **each)
        runs = [
            replace(read_bench_log(log, told), conditions=one)
            for log, one in zip(names, under, strict=True)
        ]
        chosen = [parameter(scenario, path) for path in paths]
        for path in known:
            parameter(scenario, path)
        wanted = [_kind_and_file(text) for text in parts]
        _needs_a_fit(bool(chosen), later=bool(later), parts=bool(parts), with_next=with_next)
        found = Found(
            file=file, logs=names, count=len(logs),
            agreements=[bn.agreement(case, run) for run in runs],
        )  # fmt: skip
        if chosen:
            first = runs[: len(logs)]
            found.fit = list(ft.fit(case, first, chosen, known=known))[-1]
            if later:
                found.later = list(ft.fit(case, runs[len(logs) :], chosen, known=known))[-1]
                if found.fit.is_good and found.later.is_good:
                    found.drift = dr.drift(found.fit, found.later, same_meter=not other_meter)
            if with_next and found.fit.is_good:
                found.prospects = ol.outlook(case, first, found.fit, known=known)
        for kind, target in wanted:
            _write_part(kind, target, case, found)
            found.parts.append(target)
    except (ValueError, ArithmeticError) as fault:
        click.echo(sentence_of(fault), err=True)
        context.exit(BAD_INPUT)
    if as_json:
        click.echo(json.dumps(report(found), indent=2, ensure_ascii=False, allow_nan=False))
    else:
        click.echo("\n".join(page(found)))


def _needs_a_fit(chosen: bool, **wanted: bool) -> None:
    for name, here in wanted.items():
        if here and not chosen:
            option = name.replace("with_", "").replace("parts", "part")
            raise ValueError(
                say(
                    "--{option} needs values to fit; add --fit store.capacitance_F, for instance.",
                    option=option,
                )
            )


def _kind_and_file(text: str) -> tuple[PartKind, Path]:
    """What kind of part is written, and where."""
    kind, sign, name = text.partition("=")
    if not sign or kind not in get_args(PartKind) or not name:
        raise ValueError(
            say(
                "--part {text}: give a kind and a file, such as store=store.json; kinds are "
                "{kinds}.",
                text=text, kinds=joined(", ", get_args(PartKind)),
            )
        )  # fmt: skip
    return cast(PartKind, kind), Path(name)


def _write_part(kind: PartKind, path: Path, case: Any, found: Found) -> None:
    """Write what the newest runs tell of one part."""
    from explorer.advice.bench.found_parts import measured_part
    from explorer.files.part_json import save_part

    newest = found.later or found.fit
    assert newest is not None
    title = say("{kind} of {design}, measured", kind=kind, design=case.scenario.title)
    save_part(path, measured_part(kind, case.scenario, newest, title))
