"""The command `study`: what a study holds and what comes of it."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from explorer.cli.telling import sentence_of
from explorer.files.disk import FileError
from explorer.text import say

if TYPE_CHECKING:
    from explorer.files.study_results import Results

BAD_INPUT = 3
STATUS = {"runs": 0, "marginal": 1, "falls_short": 2}


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--from", "source", metavar="SCENARIO", type=click.Path(path_type=Path), default=None,
              help="Begin the study with this scenario, in a new or empty folder.")
@click.option("--design", "designs", multiple=True, metavar="SCENARIO",
              type=click.Path(path_type=Path),
              help="Lay a design beside that of the study; may be given again.")
@click.option("--json", "as_json", is_flag=True, help="Print the JSON object of results.json.")
@click.pass_context
def study(
    context: click.Context, folder: Path, source: Path | None, designs: tuple[Path, ...],
    as_json: bool,
) -> None:
    """Judge everything in the study FOLDER and write its results there.

    A study is a folder with scenario.json (the design and what it must reach), study.json (logged
    runs and their conditions, designs beside it, sweeps), the files that these name, and
    results.csv and results.json. Every other command takes FOLDER/scenario.json; bench and sweep
    take FOLDER. Ends with the status of the design's verdict, as check does.
    """
    from explorer.files.study_place import study_folder
    from explorer.files.study_results import results_report, study_results, write_results

    try:
        if source is not None or designs:
            _change(folder, source, designs)
        own = study_folder(folder)
        if own is None:
            raise FileError(
                say(
                    "{folder} is no study: it holds no study.json. Begin one with --from "
                    "SCENARIO.",
                    folder=folder,
                )
            )
        found = study_results(own)
        assert found is not None
        write_results(found)
    except (ValueError, ArithmeticError) as fault:
        click.echo(sentence_of(fault), err=True)
        context.exit(BAD_INPUT)
    if as_json:
        text = json.dumps(results_report(found), indent=2, ensure_ascii=False, allow_nan=False)
        click.echo(text)
    else:
        click.echo("\n".join(_page(found)))
    context.exit(STATUS[found.designs[0].verdict.state])


def _change(folder: Path, source: Path | None, designs: tuple[Path, ...]) -> None:
    """Begin a study, or lay designs beside that of one."""
    from explorer.files.scenario_json import load_scenario
    from explorer.files.study import Laid, Study, keep_study, load_study
    from explorer.files.study_place import DESIGN, study_folder
    from explorer.scenario.study import MOST_DESIGNS

    own = study_folder(folder) if source is None else None
    if source is None and own is None:
        raise FileError(
            say("{folder} is no study: it holds no study.json. Begin one with --from SCENARIO.",
                folder=folder)
        )  # fmt: skip
    path = source or folder / DESIGN
    before = Study() if own is None else load_study(own)
    laid = []
    for one in designs:
        scenario = load_scenario(one).scenario
        laid.append(Laid(name=scenario.title or one.stem, scenario=scenario, path=one))
    together = (*before.designs, *laid)
    if len(together) >= MOST_DESIGNS:
        raise FileError(say("{n} designs can be compared; take one out first.", n=MOST_DESIGNS))
    scenario = load_scenario(path).scenario
    keep_study(folder, scenario, path, replace(before, designs=together), own=own)


def _page(found: Results) -> list[str]:
    """The lines for a terminal."""
    from explorer.files.study import RESULTS_TABLE
    from explorer.files.study_builds import BuildSearch
    from explorer.words.builds import limits_text
    from explorer.words.conditions import conditions_text
    from explorer.words.console import one_line
    from explorer.words.fit import agreement_sentences

    lines = [
        f"{one_line(name)}: {one.verdict.word}. {one.verdict.governing.sentence}"
        for name, one in zip(found.names, found.designs, strict=True)
    ]
    for run, one in zip(found.study.story.runs, found.runs, strict=True):
        lines += ["", f"{run.path.name}: {conditions_text(one.run)}.", *agreement_sentences(one)]
    for sweep in found.study.sweeps:
        lines += ["", f"{sweep.file}: " + " ".join(f"--vary {text}" for text in sweep.vary)]
    builds = found.study.builds
    if builds != BuildSearch():
        lines += ["", say("Search for a build: {limits}.", limits=limits_text(builds.limits))]
        lines += [say("Its front has {n} builds.", n=len(builds.front))] * bool(builds.front)
    return [*lines, "", say("Written: {path}", path=found.folder / RESULTS_TABLE)]
