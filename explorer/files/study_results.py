"""What comes of the designs of a study, written beside them: one table and one JSON file."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from explorer.advice.answers import finite
from explorer.advice.assess import Assessment, assess
from explorer.advice.bench.forecast import Agreement, agreement
from explorer.advice.case import Case
from explorer.advice.reach import Reach, reach
from explorer.files.bench_log import read_bench_log
from explorer.files.beside import resolve_case
from explorer.files.disk import write_text
from explorer.files.report_source import canonical_json, sha256_of
from explorer.files.scenario_json import load_scenario
from explorer.files.study import RESULTS, RESULTS_TABLE, Study, load_study
from explorer.files.study_place import DESIGN
from explorer.files.tables import write_table
from explorer.text import say
from explorer.words.line_up import LineUpRow, line_up_rows, line_up_table


@dataclass(frozen=True, slots=True, kw_only=True)
class Results:
    """What was found: designs in their order, the one of the study first."""

    folder: Path
    study: Study
    names: tuple[str, ...]
    designs: tuple[Assessment, ...]
    runs: tuple[Agreement, ...]
    """How the forecast of the study's design agrees with each run."""

    @property
    def rows(self) -> tuple[LineUpRow, ...]:
        """The designs side by side."""
        return line_up_rows([one.scenario for one in self.designs], self.designs)


def study_results(folder: Path, stopped: Callable[[], bool] = lambda: False) -> Results | None:
    """Judge every design of a study, and hold its forecast against its runs.

    Parameters
    ----------
    folder : pathlib.Path
        Of the study.
    stopped : callable
        Whether nobody wants to know any more; asked between two designs.

    Returns
    -------
    Results or None
        None where it was stopped.

    Raises
    ------
    FileError
        A file of the study cannot be read.
    """
    study = load_study(folder)
    first = load_scenario(folder / DESIGN).scenario
    case = resolve_case(first, folder / DESIGN)
    cases = [case, *(resolve_case(one.scenario, one.path) for one in study.designs)]
    designs, runs = [], []
    for one in cases:
        if stopped():
            return None
        designs.append(_judged(one))
    for run in study.story.runs:
        if stopped():
            return None
        read = read_bench_log(run.path, run.told)
        runs.append(agreement(case, replace(read, conditions=run.conditions)))
    title = first.title or say("Untitled")
    return Results(
        folder=folder, study=study, names=(title, *(one.name for one in study.designs)),
        designs=tuple(designs), runs=tuple(runs),
    )  # fmt: skip


def write_results(found: Results) -> None:
    """Write ``results.csv`` to read and ``results.json`` for other programs.

    Raises
    ------
    FileError
        The disk refuses.
    """
    write_table(found.folder / RESULTS_TABLE, line_up_table(found.names, found.rows))
    text = json.dumps(results_report(found), indent=2, ensure_ascii=False, allow_nan=False)
    write_text(found.folder / RESULTS, text + "\n")


def results_steps(folder: Path, stopped: Callable[[], bool]) -> Iterator[str]:
    """Work out and write the results of a study, as a question for a worker."""
    found = study_results(folder, stopped)
    if found is not None and not stopped():
        write_results(found)
        yield folder.name


def results_report(found: Results) -> dict[str, Any]:
    """The JSON object; each design names the inputs that it was judged with by their hash."""
    files = [DESIGN, *(one.path.name for one in found.study.designs if one.path is not None)]
    return {
        "designs": [
            {
                "name": name,
                "file": file,
                "inputs_sha256": sha256_of(canonical_json(one.scenario)),
                "verdict": one.verdict.state,
                "governing": one.verdict.governing.name,
                "margins": {check.name: finite(check.margin) for check in one.verdict.checks},
                "answers": {key: _known(value) for key, value in one.answers.items()},
            }
            for name, file, one in zip(found.names, files, found.designs, strict=True)
        ],
        "runs": [
            {
                "file": run.path.name,
                "rms_V": one.rms_v,
                "bias_V": one.bias_v,
                "outside_share": one.outside_share,
            }
            for run, one in zip(found.study.story.runs, found.runs, strict=True)
        ],
    }


def _judged(case: Case) -> Assessment:
    found = assess(case)
    return replace(found, answers={**found.answers, **reach(case)})


def _known(value: float) -> float | None:
    if isinstance(value, Reach) and value.bound == "none":
        return None
    return finite(float(value))
