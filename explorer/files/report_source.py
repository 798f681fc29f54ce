"""Where a sheet comes from: which program, which files, which inputs, when."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from explorer.files.logs import log_path
from explorer.scenario.model import Scenario

SHORT = 12
"""Letters of a hash in the head of a page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """What a reader needs to find the same inputs and the same program again."""

    program: str
    """Version of the program."""
    file: str
    """Name of the scenario's file; empty where it was never saved."""
    scenario_sha256: str
    log: str
    """Name of the light log; empty where there is none."""
    log_sha256: str
    written: datetime
    """With its time zone."""
    note: str
    """What the writer of the sheet adds."""


def source_of(
    scenario: Scenario, path: Path | None, program: str, written: datetime, note: str = ""
) -> Source:
    """The provenance of a scenario.

    Parameters
    ----------
    scenario : Scenario
        As it is judged, which may differ from its file.
    path : pathlib.Path, optional
        Its file; None for one that was never saved.
    program : str
        Version of the program.
    written : datetime
        Now, with a time zone.
    note : str
        What the writer of the sheet adds.

    Raises
    ------
    FileError
        The light log cannot be read.
    """
    log = log_path(scenario, path)
    return Source(
        program=program,
        file="" if path is None else path.name,
        scenario_sha256=sha256_of(canonical_json(scenario)),
        log="" if log is None else log.name,
        log_sha256="" if log is None else _sha256_of_file(log),
        written=written,
        note=note,
    )  # fmt: skip


def _sha256_of_file(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def canonical_json(scenario: Scenario) -> str:
    """The one spelling of a scenario: every key, sorted, without blanks between them.

    Two scenarios have the same spelling just when all their inputs are equal.
    """
    return json.dumps(
        scenario.model_dump(mode="json"), sort_keys=True, separators=(",", ":"),
        ensure_ascii=False, allow_nan=False,
    )  # fmt: skip


def sha256_of(text: str) -> str:
    """SHA-256 of a text in UTF-8, in hexadecimal."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()
