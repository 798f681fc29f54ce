"""The map of a design in a year: whole years at some nodes, and levels between them."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from explorer.advice.asked import asked_with
from explorer.advice.case import Case
from explorer.advice.edges import Stopped
from explorer.advice.judge import judge, ratings_margin
from explorer.advice.territory import JUST_BELOW, Axis, Territory, point_of
from explorer.advice.verdict import CHECK_NAMES
from explorer.advice.year.bounds import ruled_out
from explorer.physics.arrays import FloatArray, IntArray
from explorer.scenario.model import get_value, size_path

NODES = 9
"""Values of either axis at which years are marched; every second one for a first picture."""
FARTHEST = 100.0
"""Levels beyond so many times a limit, or a share of it, count as that."""

Point = dict[str, float]


def territory_of_year(
    case: Case, x: Axis, y: Axis, stopped: Stopped
) -> Iterator[Territory]:
    """Verdict over two quantities by whole years, a coarse picture before a finer one.

    Between the nodes the logarithms of the levels are taken for straight; the present design is a
    node, so that the map says of it what the sign says.

    Parameters
    ----------
    case : Case
        The present design; everything else stays as it is.
    x, y : Axis
        Two different quantities.
    stopped : callable
        Asked before every node.
    """
    known: dict[tuple[int, int], Point] = {}
    for stride in (2, 1):
        across, up = (_nodes(case, axis, stride) for axis in (x, y))
        for j in up.tolist():
            for i in across.tolist():
                if stopped():
                    return
                if (j, i) not in known:
                    known[j, i] = _point(case, x, y, i, j)
        yield _between(x, y, across, up, known)


def _nodes(case: Case, axis: Axis, stride: int) -> IntArray:
    """Indices of an axis at which years are marched, the present value's among them."""
    count = len(axis.values)
    some = np.linspace(0, count - 1, min(NODES, count)).round().astype(np.intp)
    now = get_value(case.scenario, axis.path)
    now = case.mean_lit_lx if now is None else float(np.asarray(now))
    here = int(np.argmin(np.abs(np.asarray(axis.values) - now)))
    return np.unique(np.append(some[::stride], [here, some[-1]]))


def _point(case: Case, x: Axis, y: Axis, i: int, j: int) -> Point:
    """What a map shows of one node, the present values themselves where they are nearest."""
    place = {x.path: x.values[i], y.path: y.values[j]}
    for axis, at in ((x, i), (y, j)):
        now = get_value(case.scenario, axis.path)
        values = np.asarray(axis.values)
        if now is not None and int(np.argmin(np.abs(values - float(now)))) == at:
            place[axis.path] = float(now)
    # A store's size sets its resistance and leakage, so it must be changed before them.
    order = sorted(place, key=lambda path: path != size_path(case.scenario))
    nothing = {"codes": 0.0, "margin": 0.0, "reserve": 0.0, "governing": 0.0}
    return asked_with(case, {path: place[path] for path in order}, _judged, nothing)


def _judged(case: Case) -> Point:
    short = ("ratings", ratings_margin(case))
    found = short if short[1] < 1.0 else ruled_out(case, cleanly=False)
    if found is None:
        return point_of(judge(case))
    level = min(found[1], JUST_BELOW)
    return {
        "codes": 0.0, "margin": level, "reserve": level,
        "governing": float(CHECK_NAMES.index(found[0])),
    }


def _between(
    x: Axis, y: Axis, across: IntArray, up: IntArray, known: dict[tuple[int, int], Point]
) -> Territory:
    """The whole map from its nodes."""
    def levels(name: str) -> FloatArray:
        nodes = np.log(np.clip(_table(name, across, up, known), 1.0 / FARTHEST, FARTHEST))
        rows = np.array([np.interp(np.arange(len(x.values)), across, row) for row in nodes])
        columns = [np.interp(np.arange(len(y.values)), up, column) for column in rows.T]
        return np.asarray(np.exp(np.array(columns).T))

    margin, reserve = levels("margin"), levels("reserve")
    works = margin >= 1.0 - 1e-12
    codes = works.astype(np.intp) + (works & (reserve >= 1.0 - 1e-12))
    near = np.ix_(_nearest(up, len(y.values)), _nearest(across, len(x.values)))
    governing = np.zeros((len(y.values), len(x.values)), np.intp)
    governing[np.ix_(up, across)] = _table("governing", across, up, known).astype(np.intp)
    sure = np.zeros(codes.shape, bool)
    sure[np.ix_(up, across)] = True
    return Territory(
        x=x, y=y, codes=codes, margin=margin, reserve=reserve, governing=governing[near],
        sure=sure,
    )


def _table(
    name: str, across: IntArray, up: IntArray, known: dict[tuple[int, int], Point]
) -> FloatArray:
    return np.array([[known[j, i][name] for i in across.tolist()] for j in up.tolist()])


def _nearest(nodes: IntArray, count: int) -> IntArray:
    """The node nearest to every index."""
    return np.asarray(nodes[np.argmin(np.abs(np.arange(count)[:, None] - nodes), axis=1)])


__all__ = ["NODES", "territory_of_year"]
