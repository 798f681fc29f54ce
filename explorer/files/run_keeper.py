"""A run that is kept on disk as it comes, a line for each reading, and taken up after a crash."""

from __future__ import annotations

import os
import threading
import time
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from explorer.files.disk import FileError, is_free
from explorer.text import say

ENDING = "meter.csv"
"""How the name of such a file ends."""
REMARK = "# Readings of a meter"
COLUMNS = "time,store_V,lux"
END = "# ended"
SYNC_S = 1.0
"""Longest time that a power cut can take away, beside the reading that is being written. [s]"""


class RunKeeper:
    """Appends readings to a file, each with a flush.

    Parameters
    ----------
    path : pathlib.Path
        The file; its folder is made.
    go_on : bool
        Whether to take up a run that is there; else a file that is there is refused.

    Raises
    ------
    FileError
        There is such a file already, or it holds no run of a meter, or the disk refuses.
    """

    def __init__(self, path: Path, *, go_on: bool = False) -> None:
        self.path = path
        self.count = 0
        self._lock = threading.Lock()
        self._closed = False
        self._synced_s = 0.0
        self._last: datetime | None = None
        try:
            if go_on and path.exists():
                self._file = path.open("ab", buffering=0)
                try:
                    self._claim()
                    self._take_up()
                except BaseException:
                    self._file.close()
                    raise
            else:
                path.parent.mkdir(parents=True, exist_ok=True)
                self._file = path.open("xb", buffering=0)
                self._claim()
                self._write(f"{REMARK}\n{COLUMNS}\n")
        except FileExistsError:
            raise FileError(
                say("{path} is there already; name another file, or go on with it.", path=path)
            ) from None
        except OSError as error:
            raise FileError(
                say("{path} cannot be written: {why}.", path=path, why=error.strerror or error)
            ) from None

    def _claim(self) -> None:
        """Keep other programs from writing into the same run."""
        if not is_free(self._file.fileno()):
            raise FileError(
                say("{path} is being written by another program.", path=self.path)
            )

    def _take_up(self) -> None:
        """Cut off a line that a crash left half written, and see where the run stands."""
        raw = self.path.read_bytes()
        whole = raw[: raw.rfind(b"\n") + 1]
        lines = whole.decode("utf-8", "replace").splitlines()
        if lines[:2] != [REMARK, COLUMNS]:
            raise FileError(say("{path} holds no run of a meter.", path=self.path))
        readings = [line for line in lines[2:] if line and not line.startswith("#")]
        self.count = len(readings)
        if readings:
            try:
                self._last = datetime.fromisoformat(readings[-1].split(",")[0])
            except ValueError:
                raise FileError(
                    say(
                        "{path}: its last line, “{found}”, is no reading of a meter. Take it out, "
                        "or begin a new run.",
                        path=self.path, found=readings[-1][:60],
                    )
                ) from None  # fmt: skip
        if len(whole) < len(raw):
            os.truncate(self.path, len(whole))

    def add(self, moment: datetime, volts: float, lux: float | None = None) -> None:
        """One reading more.

        Raises
        ------
        FileError
            The computer's clock stands before the last reading of the run, or the disk refuses.
        """
        with self._lock:
            if self._closed:
                return
            if self._last is not None and moment <= self._last:
                raise FileError(
                    say(
                        "The clock shows {now}, but the last reading of {file} is of {last}. Set "
                        "the clock, or begin a new run.",
                        now=f"{moment:%Y-%m-%d %H:%M:%S}",
                        file=self.path.name,
                        last=f"{self._last:%Y-%m-%d %H:%M:%S}",
                    )
                )
            light = "" if lux is None else f"{lux:.6g}"
            try:
                self._write(f"{moment.isoformat(' ', 'milliseconds')},{volts:.7g},{light}\n")
            except OSError as error:
                raise FileError(
                    say(
                        "{path} cannot be written: {why}.",
                        path=self.path,
                        why=error.strerror or error,
                    )
                ) from None
            self._last, self.count = moment, self.count + 1

    def close(self) -> None:
        """The run ends here, and nobody needs to go on with it; one without readings goes."""
        with self._lock:
            if self._closed:
                return
            self._closed = True
            self._synced_s = 0.0
            with suppress(OSError):  # a full disk: then the run can be taken up
                self._write(f"{END} {datetime.now():%Y-%m-%d %H:%M:%S}\n")
            self._file.close()
            if self.count == 0:
                with suppress(OSError):
                    self.path.unlink(missing_ok=True)

    def _write(self, text: str) -> None:
        """Write whole lines or nothing: half a number would be read as another one."""
        before, rest = os.fstat(self._file.fileno()).st_size, text.encode("utf-8")
        try:
            while rest:
                rest = rest[self._file.write(rest) :]
        except OSError:
            with suppress(OSError):
                os.ftruncate(self._file.fileno(), before)
            raise
        if time.monotonic() - self._synced_s >= SYNC_S:
            os.fsync(self._file.fileno())
            self._synced_s = time.monotonic()


def interrupted_run(folder: Path) -> Path | None:
    """The newest run of a meter, where nobody ended it; None otherwise."""
    newest = max(folder.glob(f"* {ENDING}"), default=None, key=lambda path: path.name)
    if newest is None:
        return None
    try:
        with newest.open("rb") as file:
            if not is_free(file.fileno()):
                return None
            file.seek(max(newest.stat().st_size - 200, 0))
            tail = file.read().decode("utf-8", "replace").splitlines()
    except OSError:
        return None
    return None if tail and tail[-1].startswith(END) else newest
