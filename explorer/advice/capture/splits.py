"""Where to cut a captured current so that the means of the pieces droop as it does."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from explorer.advice.capture.droop import Hull, hull_of
from explorer.physics.arrays import FloatArray

AIM = 0.0094
"""Share by which a piece may droop deeper or less deep."""
CORNERS = 0.3
"""Part of it that corners of the hull which are left out may take."""
CELLS = 30_000
"""Even parts of charge and of time between which cuts may lie."""
SHAPED = 24
"""Phases up to which the shape alone is worth one (own judgement: a person reads them)."""
SHAPE = 1e-3
"""A cut that explains more than this share of the squared current is worth a phase."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cuts:
    """Neighbouring pieces of a capture."""

    place: NDArray[np.intp]
    """Readings before each cut, both ends included, shape (n + 1,)."""
    limit_a: FloatArray
    """Largest mean that each piece may have, shape (n,). [A]"""

    def followed_by(self, other: Cuts) -> Cuts:
        """Both, one after the other."""
        return Cuts(
            place=np.concatenate([self.place, other.place[1:]]),
            limit_a=np.concatenate([self.limit_a, other.limit_a]),
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Edges:
    """Moments at which a cut may lie, shape (m,)."""

    place: NDArray[np.intp]
    time_s: FloatArray
    charge_c: FloatArray
    limit_a: FloatArray
    """Largest mean of a piece that ends here. [A]"""

    def means(self, first: int, stops: slice) -> FloatArray:
        """Mean currents from one edge to others. [A]"""
        mean: FloatArray = (self.charge_c[stops] - self.charge_c[first]) / (
            self.time_s[stops] - self.time_s[first]
        )
        return mean


def cuts(
    time_s: FloatArray,
    charge_c: FloatArray,
    hull: Hull,
    within: tuple[int, int],
    longer: float,
    most: int,
) -> Cuts:
    """Cuts of a stretch of readings.

    Parameters
    ----------
    time_s, charge_c : ndarray
        Where readings begin and end, and what was drawn up to there, shape (n + 1,). [s], [C]
    hull : Hull
        Of the readings whose droop is to be kept.
    within : tuple of int
        First reading, and the one after the last.
    longer : float
        Share by which the mean of a piece may exceed what droops no deeper.
    most : int
        Pieces that the shape may be given; droops may ask for more.
    """
    corners = _corners(hull)
    inside = [k for k in corners if within[0] <= hull.place[k] < within[1]]
    edges = _edges(time_s, charge_c, hull, within, hull.place[inside])
    needed: list[int] = []
    while True:
        chosen = [0]
        for first, stop in _pieces_of_corners(edges, hull, corners, needed):
            _fill(edges, chosen, first, longer)
            if stop > chosen[-1]:
                chosen.append(stop)
        _fill(edges, chosen, len(edges.place) - 1, longer)
        missed = _missed(edges, hull, corners, chosen)
        more = next((k for k in missed if k in inside and k not in needed), None)
        if more is None:
            break
        needed = sorted([*needed, more])
    _shape(edges, hull, corners, chosen, min(most, SHAPED))
    return Cuts(place=edges.place[chosen], limit_a=edges.limit_a[chosen[1:]])


def _missed(edges: _Edges, hull: Hull, corners: list[int], chosen: list[int]) -> list[int]:
    """Corners whose droop the pieces do not reach, the worst first."""
    ends = edges.charge_c[chosen]
    means = np.minimum(np.diff(ends) / np.diff(edges.time_s[chosen]), edges.limit_a[chosen[1:]])
    cross = np.diff(hull.charge_c[corners]) / -np.diff(hull.current_a[corners])
    pieces = hull_of(means, ends[1:])
    far = 1e9 * hull.charge_c[-1] / hull.current_a[0]
    # Both sides of a turn, as corners answer to one side each; between turns all is straight.
    turns = np.concatenate(
        [[far, 0.0], pieces.turns_s, hull.turns_s * (1.0 - 1e-9), hull.turns_s * (1.0 + 1e-9)]
    )
    short = 1.0 - pieces.deepest(turns) / hull.deepest(turns)
    # A corner answers for the turns from where it takes over to where the next one does.
    owner = np.searchsorted(-cross, -turns)
    worst = np.full(len(corners), -np.inf)
    np.maximum.at(worst, owner, short)
    return [corners[k] for k in np.argsort(-worst) if worst[k] > AIM]


def _corners(hull: Hull) -> list[int]:
    """Few corners between which the rest of the hull is missed by little."""
    chosen, last = [0], len(hull.place) - 1
    while chosen[-1] < last:
        here = chosen[-1]
        others = np.arange(here + 1, last + 1)
        # Where both corners droop alike the corners between them are missed most.
        cross = (hull.charge_c[others] - hull.charge_c[here]) / (
            hull.current_a[here] - hull.current_a[others]
        )
        depth = cross * hull.current_a[here] + hull.charge_c[here]
        fits = depth >= (1.0 - CORNERS * AIM) * hull.deepest(cross)
        chosen.append(int(others[np.flatnonzero(fits)[-1]]))
    return chosen


def _edges(
    time_s: FloatArray,
    charge_c: FloatArray,
    hull: Hull,
    within: tuple[int, int],
    singles: NDArray[np.intp],
) -> _Edges:
    first, stop = within
    time, charge = time_s[first : stop + 1], charge_c[first : stop + 1]
    place = np.arange(len(time))
    if len(time) > 2 * CELLS:
        by_time = (time - time[0]) * (CELLS / (time[-1] - time[0]))
        high = np.maximum.accumulate(charge)
        by_charge = (high - high[0]) * (CELLS / max(high[-1] - high[0], 1e-300))
        changes = np.diff(np.floor(by_time)) + np.diff(np.floor(by_charge))
        place = np.append(np.flatnonzero(changes) + 1, (0, len(time) - 1))
    own = singles - first
    place = np.unique(np.concatenate([place, own, own + 1]))
    return _Edges(
        place=place + first,
        time_s=time[place],
        charge_c=charge[place],
        limit_a=hull.most_current(charge[place], AIM),
    )


def _pieces_of_corners(
    edges: _Edges, hull: Hull, corners: list[int], inside: list[int]
) -> list[tuple[int, int]]:
    """The longest piece around each corner that still droops as deep as it."""
    amps, drawn = hull.current_a[corners], hull.charge_c[corners]
    cross = np.diff(drawn) / -np.diff(amps)
    pieces: list[tuple[int, int]] = []
    for n, k in enumerate(corners):
        if k not in inside:
            continue
        taus = [*([cross[n - 1]] if n else []), cross[n] if n < len(cross) else 0.0]
        least = [(tau, (1.0 - AIM) * float(hull.deepest(tau))) for tau in taus]
        own = int(np.searchsorted(edges.place, hull.place[k]))
        follows = inside.index(k) + 1
        most = (
            int(np.searchsorted(edges.place, hull.place[inside[follows]]))
            if follows < len(inside)
            else len(edges.place) - 1
        )
        floor_a = 0.0 if n else (1.0 - AIM) * float(amps[0])
        stops = slice(own + 1, most + 1)
        means, ends = edges.means(own, stops), edges.charge_c[stops]
        fits = (means <= edges.limit_a[stops]) & (means >= floor_a)
        for tau, depth in least:
            fits &= tau * means + ends >= depth
        stop = own + 1 + (int(np.flatnonzero(fits)[-1]) if fits.any() else 0)
        begins = slice(pieces[-1][1] if pieces else 0, own + 1)
        means = edges.means(stop, begins)
        fits = (means <= edges.limit_a[stop]) & (means >= floor_a)
        for tau, depth in least:
            fits &= tau * means + edges.charge_c[stop] >= depth
        first = begins.start + int(np.argmax(fits)) if fits.any() else own
        pieces.append((first, stop))
    return pieces


def _fill(edges: _Edges, chosen: list[int], until: int, longer: float) -> None:
    """Longest pieces one after another up to an edge."""
    while (here := chosen[-1]) < until:
        stops = slice(here + 1, until + 1)
        fits = edges.means(here, stops) <= edges.limit_a[stops] * (1.0 + longer)
        chosen.append(here + 1 + (int(np.flatnonzero(fits)[-1]) if fits.any() else 0))


def _shape(edges: _Edges, hull: Hull, corners: list[int], chosen: list[int], most: int) -> None:
    """Cuts that bring the means closer to the current, and none that do not; no droop is lost."""
    squares = np.diff(edges.charge_c) ** 2 / np.diff(edges.time_s)
    worth = SHAPE * float(squares.sum())
    missed = len(_missed(edges, hull, corners, chosen))

    def is_kept(cuts: list[int]) -> bool:
        return len(_missed(edges, hull, corners, cuts)) <= missed

    best = {pair: _best_cut(edges, *pair) for pair in pairwise(chosen)}
    while len(chosen) <= most:
        (first, stop), (gain_most, cut) = max(best.items(), key=lambda item: item[1][0])
        if gain_most < worth:
            break
        tried = sorted([*chosen, cut])
        if not is_kept(tried):
            best[first, stop] = (0.0, first)
            continue
        chosen[:] = tried
        del best[first, stop]
        best |= {pair: _best_cut(edges, *pair) for pair in ((first, cut), (cut, stop))}
    for cut in chosen[1:-1]:
        place = chosen.index(cut)
        first, stop = chosen[place - 1], chosen[place + 1]
        gain, _ = _gains(edges, first, slice(cut, cut + 1), stop)
        whole = edges.means(first, slice(stop, stop + 1)) <= edges.limit_a[stop]
        if gain[0] < worth and whole[0] and is_kept([k for k in chosen if k != cut]):
            chosen.remove(cut)


def _best_cut(edges: _Edges, first: int, stop: int) -> tuple[float, int]:
    """How much of the squared current the best cut explains, and where it lies."""
    if stop - first < 2:
        return 0.0, first
    gain, allowed = _gains(edges, first, slice(first + 1, stop), stop)
    gain[~allowed] = 0.0
    k = int(np.argmax(gain))
    return float(gain[k]), first + 1 + k


def _gains(
    edges: _Edges, first: int, inner: slice, stop: int
) -> tuple[FloatArray, NDArray[np.bool_]]:
    """How much of the squared current cuts of one piece explain, and which droop no deeper."""
    before, after = edges.means(first, inner), edges.means(stop, inner)
    whole = edges.means(first, slice(stop, stop + 1))
    time = edges.time_s
    gain: FloatArray = (
        before**2 * (time[inner] - time[first])
        + after**2 * (time[stop] - time[inner])
        - whole**2 * (time[stop] - time[first])
    )
    return gain, (before <= edges.limit_a[inner]) & (after <= edges.limit_a[stop])
