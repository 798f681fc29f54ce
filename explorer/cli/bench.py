"""The command that holds a forecast against logged runs."""

from __future__ import annotations

import json
from collections.abc import Sequence
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
    from explorer.files.story import Story
    from explorer.scenario.model import Scenario

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
@click.argument("logs", nargs=-1, type=click.Path(path_type=Path))
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
@click.option(
    "--keep", "kept", metavar="FOLDER", type=click.Path(path_type=Path),
    help="Keep the scenario, the logs and what is told of them as a study that opens again.",
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
    kept: Path | None,
    as_json: bool,
    **each: tuple[str, ...],
) -> None:
    """Compare the forecast of a scenario FILE with measured runs LOGS of the device.

    FILE may be the folder of a study; without LOGS its own runs are taken, as they are kept there.

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
    from explorer.files.study_place import scenario_file

    try:
        scenario = load_scenario(scenario_file(file)).scenario
        case = resolve_case(scenario, scenario_file(file))
        story = _story(file, logs, later, told, same_meter=not other_meter, known=known)
        under = conditions([run.conditions for run in story.runs], **each)
        story = replace(story, runs=tuple(
            replace(run, conditions=one) for run, one in zip(story.runs, under, strict=True)
        ))  # fmt: skip
        known = dict(story.known)
        runs = [
            replace(read_bench_log(run.path, run.told), conditions=run.conditions)
            for run in story.runs
        ]
        logs = tuple(run.path for run in story.runs if not run.is_later)
        later = tuple(run.path for run in story.runs if run.is_later)
        chosen = [parameter(scenario, path) for path in paths]
        for path in known:
            parameter(scenario, path)
        wanted = [_kind_and_file(text) for text in parts]
        _needs_a_fit(bool(chosen), later=bool(later), parts=bool(parts), with_next=with_next)
        found = Found(
            file=file, logs=(*logs, *later), count=len(logs),
            agreements=[bn.agreement(case, run) for run in runs],
        )  # fmt: skip
        if chosen:
            first = runs[: len(logs)]
            found.fit = list(ft.fit(case, first, chosen, known=known))[-1]
            if later:
                found.later = list(ft.fit(case, runs[len(logs) :], chosen, known=known))[-1]
                if found.fit.is_good and found.later.is_good:
                    found.drift = dr.drift(found.fit, found.later, same_meter=story.same_meter)
            if with_next and found.fit.is_good:
                found.prospects = ol.outlook(case, first, found.fit, known=known)
        if kept is not None:
            _keep(kept, file, scenario, story)
            found.parts.append(kept)
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


def _story(
    file: Path, logs: Sequence[Path], later: Sequence[Path], told: Told,
    *, same_meter: bool, known: dict[str, float],
) -> Story:  # fmt: skip
    """The runs that are meant: those given, else those of a study, later ones behind."""
    from explorer.files.story import RunFile, Story
    from explorer.files.study import load_study
    from explorer.files.study_place import study_folder

    folder = study_folder(file)
    if logs or later:
        runs = tuple(
            RunFile(path=path, told=told, is_later=place >= len(logs))
            for place, path in enumerate((*logs, *later))
        )
        return Story(runs=runs, same_meter=same_meter, known=tuple(known.items()))
    story = load_study(folder).story if folder is not None else Story()
    if not story.runs:
        raise ValueError(
            say("{file} holds no logged run; name the table of one behind it.", file=file)
        )
    ordered = tuple(sorted(story.runs, key=lambda run: run.is_later))
    return Story(
        runs=ordered, same_meter=story.same_meter and same_meter,
        known=tuple({**dict(story.known), **known}.items()),
    )  # fmt: skip


def _keep(folder: Path, file: Path, scenario: Scenario, story: Story) -> None:
    """Keep runs as a study, or in the study that they belong to."""
    from explorer.files.study import Study, keep_study, load_study
    from explorer.files.study_place import scenario_file, study_folder

    own = study_folder(file)
    before = Study() if own is None else load_study(own)
    keep_study(folder, scenario, scenario_file(file), replace(before, story=story), own=own)


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
