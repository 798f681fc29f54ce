"""Tables of results as CSV: units in the column names, a point as the decimal mark."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from explorer.engine.columns import Columns
from explorer.files.disk import FileError, write_text
from explorer.quantity import show

_DIGITS = 9
"""Significant digits: a second in thirty years, a nanovolt in a volt."""
MOST_ROWS = 1_000_000
"""Most rows at an even step; spreadsheets end at 1 048 576 (common practice, no source)."""

FloatArray = NDArray[np.float64]


class TableError(FileError):
    """A table cannot be written; the text is a sentence."""


def write_trace(path: Path | str, trace: Columns) -> None:
    """Write a trace, one line for each of its rows; `connected` is 1 or 0.

    Raises
    ------
    TableError
        The place cannot be written.
    """
    write_table(
        path,
        {
            "time_s": trace.time_s.tolist(),
            "store_V": trace.store_v.tolist(),
            "terminal_V": trace.terminal_v.tolist(),
            "terminal_min_V": trace.terminal_min_v.tolist(),
            "harvest_A": trace.harvest_a.tolist(),
            "load_A": trace.load_a.tolist(),
            "connected": trace.connected.astype(np.int64).tolist(),
        },
    )


def every(trace: Columns, step_s: float) -> Columns:
    """A trace at an even step, from its first moment on.

    Voltages, light and load switch of a row are those of its moment: straight between the rows
    of the trace, and where the trace jumps, as after the jump. Minima are the lowest within the
    step that begins there, and currents the means over it, so that current times step adds up
    to the charge. The last step ends with the trace.

    Parameters
    ----------
    trace : Columns
        Rows at any times.
    step_s : float
        Time between rows. [s]

    Returns
    -------
    Columns
        Arrays of shape (floor(length / step) + 1,).

    Raises
    ------
    TableError
        The step is not above zero, or so short that it makes more than `MOST_ROWS` rows.
    """
    t = trace.time_s
    length_s = float(t[-1] - t[0])
    begin = t[0] + step_s * np.arange(row_count(length_s, step_s))
    begin[-1] = min(begin[-1], t[-1])
    steps = _Steps(t, begin, np.append(begin[1:], t[-1]))
    return Columns(
        time_s=begin,
        store_v=steps.at_begin(trace.store_v),
        store_min_v=steps.lowest(trace.store_min_v),
        terminal_v=steps.at_begin(trace.terminal_v),
        terminal_min_v=steps.lowest(trace.terminal_min_v),
        harvest_a=steps.mean(trace.harvest_a),
        load_a=steps.mean(trace.load_a),
        connected=trace.connected[steps.row],
        illuminance_lx=trace.illuminance_lx[steps.row],
    )


def row_count(length_s: float, step_s: float) -> int:
    """Rows at an even step from the beginning of a run to its end.

    Raises
    ------
    TableError
        The step is not above zero, or makes more than `MOST_ROWS` rows.

    Examples
    --------
    >>> row_count(604_800.0, 3600.0), row_count(100.0, 30.0)
    (169, 4)
    """
    if not step_s > 0.0:
        raise TableError(f"The step is {step_s:g} s; allowed is a time above 0 s.")
    # A length that is a whole number of steps keeps its last row in spite of rounding.
    rows = length_s / step_s * (1.0 + 1e-12) + 1.0
    if rows > MOST_ROWS:
        raise TableError(
            f"A step of {step_s:g} s makes {rows:.3g} rows of {show(length_s, 's')}; at most "
            f"{MOST_ROWS} are written, so take a step of {1.01 * length_s / MOST_ROWS:.2g} s "
            "or more."
        )
    return int(rows)


class _Steps:
    """Steps laid over the rows of a trace; what lies between rows is a straight line."""

    def __init__(self, time_s: FloatArray, begin_s: FloatArray, end_s: FloatArray) -> None:
        self.time_s, self.begin_s, self.end_s = time_s, begin_s, end_s
        self.row = np.searchsorted(time_s, begin_s, side="right") - 1
        """Last row that is not later than each beginning."""
        self.last = np.searchsorted(time_s, end_s, side="left")
        """First row that is not earlier than each end."""

    def at_begin(self, values: FloatArray) -> FloatArray:
        """Values where each step begins, after a jump at that moment."""
        return self._between(values, self.row, self.begin_s)

    def lowest(self, values: FloatArray) -> FloatArray:
        """Lowest value in each step, both ends included, but not what jumps at its end."""
        first = self.at_begin(values)
        final = self._between(values, np.maximum(self.last - 1, 0), self.end_s)
        final = np.where(self.end_s > self.begin_s, final, first)
        # Rows strictly inside, where there are any; the first step also has the moment itself.
        spans = np.stack([self.row + 1, self.last], axis=-1)
        if self.begin_s[0] == self.time_s[0] and len(spans) > 1:
            spans[0, 0] = 0
        inside = np.minimum.reduceat(np.append(values, np.inf), spans.ravel())[::2]
        inside = np.where(spans[:, 0] < spans[:, 1], inside, np.inf)
        return np.minimum(np.minimum(first, final), inside)

    def mean(self, values: FloatArray) -> FloatArray:
        """Mean over each step; the value itself where a step has no length."""
        width_s = self.end_s - self.begin_s
        gained = np.diff(self._summed(values), axis=0)[0]
        now = self.at_begin(values)
        return np.where(width_s > 0.0, gained / np.where(width_s > 0.0, width_s, 1.0), now)

    def _summed(self, values: FloatArray) -> FloatArray:
        """Values summed over time from the first row to each beginning and end. Shape (2, n)."""
        t = self.time_s
        areas = 0.5 * (values[1:] + values[:-1]) * np.diff(t)
        until = np.concatenate(([0.0], np.cumsum(areas)))
        at = np.stack([self.begin_s, self.end_s])
        row = np.searchsorted(t, at, side="right") - 1
        height = 0.5 * (values[row] + self._between(values, row, at))
        return np.asarray(until[row] + height * (at - t[row]))

    def _between(self, values: FloatArray, row: NDArray[np.intp], at_s: FloatArray) -> FloatArray:
        """Values at moments that lie between a row and the one after it."""
        after = np.minimum(row + 1, self.time_s.size - 1)
        width_s = self.time_s[after] - self.time_s[row]
        share = (at_s - self.time_s[row]) / np.where(width_s > 0.0, width_s, 1.0)
        return np.asarray(values[row] + share * (values[after] - values[row]))


def write_table(path: Path | str, columns: Mapping[str, Sequence[float | str]]) -> None:
    """Write columns of equal length in one step: a crash leaves the old file or the new one.

    Parameters
    ----------
    path : path-like
        File to write.
    columns : mapping of str to sequence
        Values under each column's name; infinite ones are written as ``inf``.

    Raises
    ------
    TableError
        The place cannot be written.
    ValueError
        The columns differ in length.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows(
        [value if isinstance(value, str) else f"{value:.{_DIGITS}g}" for value in row]
        for row in zip(*columns.values(), strict=True)
    )
    try:
        write_text(Path(path), text.getvalue())
    except FileError as error:
        raise TableError(str(error)) from None
