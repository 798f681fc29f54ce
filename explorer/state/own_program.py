"""How the program starts itself once more: as a worker, or to follow a meter."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence

from PySide6.QtCore import QProcess, QProcessEnvironment


def is_bundle() -> bool:
    """Whether this is the stand-alone program, which carries its own interpreter."""
    return bool(getattr(sys, "frozen", False))


def own_words(*words: str) -> list[str]:
    """What the interpreter, or the stand-alone program, is called with for a command of ours.

    Nothing is taken from the folder that the program happens to stand in, which may be anybody's.
    """
    return list(words) if is_bundle() else ["-P", "-m", "explorer", *words]


def start(process: QProcess, program: str, words: Sequence[str], *, one_thread: bool) -> None:
    """Start the program once more, with the modules that this one finds.

    Parameters
    ----------
    process : QProcess
        What runs it.
    program : str
        The interpreter, or the stand-alone program.
    words : sequence of str
        The command and its arguments, such as ``["worker"]``.
    one_thread : bool
        Whether its linear algebra shall keep to one thread.
    """
    environment = QProcessEnvironment.systemEnvironment()
    if not is_bundle():
        environment.insert("PYTHONPATH", os.pathsep.join(p or os.getcwd() for p in sys.path))
    if one_thread:
        for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
            environment.insert(name, "1")
    process.setProcessEnvironment(environment)
    process.start(program, own_words(*words))
