"""Studies: a folder that holds a design with all that was tried on it, and opens again.

``scenario.json`` is the design with what it must reach, ``study.json`` what belongs to it; logged
runs lie in ``runs``, light logs and weather in ``light``, tables of sweeps where they were
written. Every file can be read by itself.
"""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field, replace
from functools import partial
from pathlib import Path
from typing import Any

from explorer.files.beside import beside_path
from explorer.files.disk import (
    MEGABYTE,
    FileError,
    digest_of,
    drop,
    read_text,
    refusal,
    write_text,
)
from explorer.files.json_text import decoded, dumped, found_text, validated
from explorer.files.scenario_json import load_scenario, parse_scenario, save_scenario
from explorer.files.story import RunFile, Story
from explorer.files.study_builds import (
    BuildSearch,
    current,
    kept_builds,
    read_builds,
    renamed,
    write_builds,
)
from explorer.files.study_place import DESIGN, NAME
from explorer.files.table_reader.told import Told
from explorer.files.trust import TRUST
from explorer.scenario.fields import MOST_LETTERS
from explorer.scenario.light import LogPattern
from explorer.scenario.logged_run import Conditions
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.study import (
    FORMAT,
    VERSION,
    KeptConditions,
    KeptDesign,
    KeptReading,
    KeptRun,
    KeptSweep,
    KnownShare,
    StudyFile,
)
from explorer.text import say

RUNS, LIGHT = "runs", "light"
RESULTS, RESULTS_TABLE = "results.json", "results.csv"
LIMIT_BYTES = MEGABYTE


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A design that is laid beside the open one."""

    name: str
    scenario: Scenario
    path: Path | None = None
    """Where its light log is looked for; None for shipped ones alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Study:
    """What belongs to a design beside its scenario."""

    story: Story = field(default_factory=Story)
    designs: tuple[Laid, ...] = ()
    sweeps: tuple[KeptSweep, ...] = ()
    builds: BuildSearch = field(default_factory=BuildSearch)


def load_study(folder: Path) -> Study:
    """Read what belongs to the design of a study; the logged runs themselves are read later.

    Raises
    ------
    OutsideFile
        A file lies outside the folder, and `TRUST` does not know it.
    FileError
        ``study.json`` is missing or no study, holds something that is not allowed, or names a
        file that is not there.
    """
    path = folder / NAME
    kept = _read(path)
    paths = [_within(folder, f"runs.{n}.file", run.file) for n, run in enumerate(kept.runs)]
    designs = []
    for n, one in enumerate(kept.designs):
        file = _within(folder, f"designs.{n}.file", one.file)
        laid = Laid(name=one.name, scenario=load_scenario(file).scenario, path=file)
        beside_path(laid.scenario, file)  # a light log that is not there is told at once
        designs.append(laid)
    builds = read_builds(kept.builds, partial(_within, folder))
    return Study(
        story=_story(kept, paths), designs=tuple(designs), sweeps=kept.sweeps, builds=builds
    )


def keep_study(
    folder: Path, scenario: Scenario, scenario_path: Path | None, study: Study,
    *, own: Path | None = None, replace_older: bool = False,
) -> tuple[Scenario, Study]:
    """Write a study; what lies elsewhere is copied into its folder, and nothing is deleted there.

    Of the study itself go results and builds of a front that are none any more.

    Parameters
    ----------
    folder : pathlib.Path
        A new or empty folder, or the study's own.
    scenario, scenario_path : Scenario, pathlib.Path or None
        The design, and where its light log is looked for.
    study : Study
        What belongs to it.
    own : pathlib.Path, optional
        The study's own folder, where it has been kept before.
    replace_older : bool
        As of `save_scenario`.

    Returns
    -------
    Scenario, Study
        The same with files named as they lie in the folder now.

    Raises
    ------
    FileError
        The folder holds other things or another study, the disk refuses, or a file is no longer
        there.
    """  # fmt: skip
    _make(folder, own)
    design = _with_light(folder, scenario, scenario_path)
    builds = renamed(current(study.builds, scenario), scenario, design)
    write_builds(folder, builds, _front_before(folder))
    story = replace(study.story, runs=tuple(_with_file(folder, r) for r in study.story.runs))
    laid = tuple(
        replace(one, scenario=_with_light(folder, one.scenario, one.path),
                path=folder / f"design-{n}.json")
        for n, one in enumerate(study.designs, 2)
    )  # fmt: skip
    for name in (RESULTS, RESULTS_TABLE):
        drop(folder / name)  # of what was; written anew once it is worked out
    for one in laid:
        assert one.path is not None
        save_scenario(one.path, one.scenario, replace_older=True)
    if replace_older or not _holds(folder / DESIGN, design):
        save_scenario(folder / DESIGN, design, replace_older=replace_older)
    kept = replace(study, story=story, designs=laid, builds=builds)
    write_text(folder / NAME, dumped(_as_file(kept, folder)))
    return design, kept


def remember_sweep(folder: Path, sweep: KeptSweep) -> None:
    """Put down in a study what made a table in its folder; an earlier note of the table gives way.

    Raises
    ------
    FileError
        ``study.json`` cannot be read or written.
    """
    kept = _read(folder / NAME)
    others = tuple(one for one in kept.sweeps if one.file != sweep.file)
    made = kept.model_copy(update={"sweeps": (*others, sweep)})
    write_text(folder / NAME, dumped(made))


def remember_builds(folder: Path, search: BuildSearch) -> None:
    """Put down in a study what a search for a build found; an earlier front gives way.

    Raises
    ------
    FileError
        ``study.json`` cannot be read, or the disk refuses.
    """
    kept = _read(folder / NAME)
    write_builds(folder, search, _front_before(folder))
    made = kept.model_copy(update={"builds": kept_builds(search)})
    write_text(folder / NAME, dumped(made))


def _front_before(folder: Path) -> int:
    """How many builds the front has that a folder keeps; 0 where it keeps no study."""
    try:
        builds = _read(folder / NAME).builds
    except FileError:
        return 0
    return 0 if builds is None else len(builds.front)


def _read(path: Path) -> StudyFile:
    text = read_text(path, limit_bytes=LIMIT_BYTES, what=say("study"))
    data: Any = decoded(text, path.name)
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        found = data.get("format") if isinstance(data, dict) else data
        raise FileError(
            say(
                '{file} is not a study: the key format must be "{format}", found {found}.',
                file=path.name, format=FORMAT, found=found_text(found),
            )
        )  # fmt: skip
    version = data.get("version")
    if type(version) is int and version > VERSION:
        raise FileError(
            say(
                "{file} has version {version}, and this program reads versions up to {newest}. "
                "A newer program wrote it; update this one to open it.",
                file=path.name, version=version, newest=VERSION,
            )
        )  # fmt: skip
    return validated(data, path.name, StudyFile)


def _within(folder: Path, key: str, named: str) -> Path:
    """A file that a study names."""
    path = folder / named
    if "\0" in named or not os.path.lexists(path):
        raise FileError(
            say(
                "{study}: {key} is {file}, and there is no such file in the folder of the study. "
                "Put it back, or take the entry out.",
                study=NAME, key=key, file=repr(named),
            )
        )  # fmt: skip
    TRUST.check(key, named, path, folder)
    return path


def _as_file(study: Study, folder: Path | None) -> StudyFile:
    """What is said of a study, with files named from its folder, or in full where it has none."""

    def name(path: Path) -> str:
        return str(path.absolute()) if folder is None else _name_in(folder, path)

    runs = tuple(
        KeptRun(
            file=name(run.path),
            reading=KeptReading(**asdict(run.told)),
            conditions=KeptConditions(**asdict(run.conditions)),
            later=run.is_later,
        )
        for run in study.story.runs
    )
    return StudyFile(
        runs=runs,
        same_meters=study.story.same_meter,
        known=tuple(KnownShare(path=path, share=share) for path, share in study.story.known),
        designs=tuple(
            KeptDesign(
                name=str.__str__(one.name)[:MOST_LETTERS], file=name(one.path or Path(DESIGN))
            )
            for one in study.designs
        ),
        sweeps=study.sweeps,
        # Of a front that no folder holds its limits are enough: it is found again.
        builds=kept_builds(study.builds if folder else study.builds.without_front()),
    )


def _story(kept: StudyFile, paths: Iterable[Path]) -> Story:
    runs = tuple(
        RunFile(
            path=path,
            told=Told(**run.reading.model_dump()),
            conditions=Conditions(**run.conditions.model_dump()),
            is_later=run.later,
        )
        for run, path in zip(kept.runs, paths, strict=True)
    )
    known = tuple((one.path, one.share) for one in kept.known)
    return Story(runs=runs, same_meter=kept.same_meters, known=known)


def study_record(study: Study) -> dict[str, Any]:
    """What belongs to a design that no folder holds yet, as JSON that `recorded_study` reads."""
    designs = [
        {
            "path": None if one.path is None else str(one.path.absolute()),
            "scenario": one.scenario.model_dump(mode="json"),
        }
        for one in study.designs
    ]
    return {"said": _as_file(study, None).model_dump(mode="json"), "designs": designs}


def recorded_study(record: Any, name: str) -> Study:
    """What `study_record` wrote, by this program on this machine.

    Raises
    ------
    FileError, KeyError, TypeError
        It is no such record.
    """
    kept = validated(record["said"], name, StudyFile)
    designs = tuple(
        Laid(
            name=said.name,
            scenario=parse_scenario(json.dumps(one["scenario"]), name),
            path=None if one["path"] is None else Path(one["path"]),
        )
        for said, one in zip(kept.designs, record["designs"], strict=True)
    )
    story = _story(kept, (Path(run.file) for run in kept.runs))
    builds = read_builds(kept.builds, lambda _, file: Path(file))
    return Study(story=story, designs=designs, sweeps=kept.sweeps, builds=builds)


def _holds(path: Path, scenario: Scenario) -> bool:
    """Whether a file says a scenario already, perhaps in the words of an older version."""
    try:
        return load_scenario(path).scenario == scenario
    except FileError:
        return False


def _name_in(folder: Path, path: Path) -> str:
    return path.relative_to(folder).as_posix()


def _make(folder: Path, own: Path | None) -> None:
    """Make a folder, or see that an existing one may be used."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if own is not None and own.exists() and folder.samefile(own):
            return
        others = any(folder.iterdir())
    except FileExistsError:
        raise FileError(
            say("{folder} is a file; a study needs a folder.", folder=folder)
        ) from None
    except OSError as error:
        raise FileError(
            say("{folder} cannot be written: {why}.", folder=folder, why=error.strerror or error)
        ) from None
    if others:
        raise FileError(
            say(
                "{folder} holds other files or another study; a study needs an empty folder or a "
                "new name.",
                folder=folder,
            )
        )


def _with_file(folder: Path, run: RunFile) -> RunFile:
    return replace(run, path=_brought(run.path, folder, RUNS))


def _with_light(folder: Path, scenario: Scenario, path: Path | None) -> Scenario:
    """A scenario whose light log or weather lies in the folder."""
    source = beside_path(scenario, path)
    if source is None:
        return scenario
    key = "file" if isinstance(scenario.light.pattern, LogPattern) else "weather_file"
    name = _name_in(folder, _brought(source, folder, LIGHT))
    return with_value(scenario, f"light.pattern.{key}", name)


def _brought(source: Path, folder: Path, inner: str) -> Path:
    """A file in the folder: where it lies there already, else as a copy of its own."""
    real = Path(os.path.realpath(source))
    base = Path(os.path.realpath(folder))
    if real.is_relative_to(base):
        return folder / real.relative_to(base)
    known = digest_of(real)
    if known is None:
        raise FileError(say("There is no file {path}.", path=source))
    for name in _names(source.name):
        target = folder / inner / name
        if not os.path.lexists(target):
            _copy(real, target)
            return target
        if digest_of(target) == known:
            return target
    raise AssertionError("names never end")


def _names(name: str) -> Iterable[str]:
    """A name, and then others like it."""
    yield name
    stem, ending = os.path.splitext(name)
    number = 2
    while True:
        yield f"{stem} {number}{ending}"
        number += 1


def _copy(source: Path, target: Path) -> None:
    """Copy a file so that it is there whole or not at all."""
    aside = target.with_name(f".{target.name}.part")
    try:
        target.parent.mkdir(exist_ok=True)
        shutil.copyfile(source, aside)
        os.replace(aside, target)
    except FileNotFoundError as error:
        raise refusal(source, error) from None
    except OSError as error:
        raise FileError(
            say("{path} cannot be written: {why}.", path=target, why=error.strerror or error)
        ) from None
    finally:
        aside.unlink(missing_ok=True)
