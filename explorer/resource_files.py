"""Where the shipped tables and scenarios lie, and how a table is read."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from explorer.text import say

_PACKAGE = Path(__file__).resolve().parent
_BASES = (_PACKAGE / "_bundled", _PACKAGE.parent)
"""Installed wheel first, then a checkout or an editable install."""


def resource_path(*parts: str) -> Path:
    """Path of a shipped resource such as ``resource_path("spectra", "led_4000.csv")``.

    Parameters
    ----------
    *parts : str
        Folder and file names below ``resources``.

    Returns
    -------
    pathlib.Path
        An existing file or folder.

    Raises
    ------
    FileNotFoundError
        The program's ``resources`` folder, or the named part of it, is missing.
    """
    path = _folder("resources").joinpath(*parts)
    if not path.exists():
        raise FileNotFoundError(
            say(
                "The program's file {file} is missing; install the program again.",
                file="/".join(("resources", *parts)),
            )
        )
    return path


def scenario_folder() -> Path:
    """Folder of the demonstration scenarios.

    Raises
    ------
    FileNotFoundError
        The folder is missing.
    """
    return _folder("scenarios")


def read_table(path: Path) -> dict[str, NDArray[np.float64]]:
    """Read a table of numbers: ``#`` lines, one line of column names, then the rows.

    Parameters
    ----------
    path : pathlib.Path
        CSV file in UTF-8 whose column names carry their unit (``wavelength_nm``).

    Returns
    -------
    dict of str to numpy.ndarray
        One array of shape (rows,) for each column, in the file's order.

    Raises
    ------
    FileNotFoundError
        No such file.
    ValueError
        The file holds no rows, or a row does not fit the header or is not a number.
    """
    lines = [line for line in _lines(path) if not line.startswith("#")]
    if len(lines) < 2:
        raise ValueError(say("{file}: no rows below a line of column names.", file=path.name))
    names = [name.strip() for name in lines[0].split(",")]
    rows = []
    for line in lines[1:]:
        cells = line.split(",")
        if len(cells) != len(names):
            raise ValueError(
                say(
                    "{file}: the row {row} needs {n} values.",
                    file=path.name,
                    row=repr(line),
                    n=len(names),
                )
            )
        try:
            rows.append([float(cell) for cell in cells])
        except ValueError:
            raise ValueError(
                say(
                    "{file}: the row {row} holds something else than numbers.",
                    file=path.name,
                    row=repr(line),
                )
            ) from None
    columns = np.array(rows, dtype=np.float64).T
    return dict(zip(names, columns, strict=True))


def read_notes(path: Path) -> dict[str, str]:
    """Read the ``# key: text`` lines at the head of a table: origin, licence, kind, notes.

    Raises
    ------
    FileNotFoundError
        No such file.
    """
    notes: dict[str, str] = {}
    for line in _lines(path):
        if not line.startswith("#"):
            break
        key, colon, text = line.lstrip("# ").partition(":")
        if colon:
            notes[key.strip()] = text.strip()
    return notes


def _lines(path: Path) -> list[str]:
    if not path.is_file():
        raise FileNotFoundError(say("There is no table at {path}.", path=path))
    return [line for line in path.read_text(encoding="utf-8").splitlines() if line.strip()]


@cache
def _folder(name: str) -> Path:
    for base in _BASES:
        if (base / name).is_dir():
            return base / name
    raise FileNotFoundError(
        say(
            "The program's folder {folder} is missing beside it; install the program again.",
            folder=repr(name),
        )
    )
