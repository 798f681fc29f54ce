"""What has changed in a device between two sittings at the bench, with the ± of the change.

Each sitting is fitted by itself. What is not fitted and is the same both times moves both values
alike, and counts only by how it moves them differently: parts that do not age, and the meter where
it was the same (JCGM 100:2008, F.1.2.3: correlated input quantities).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from explorer.advice.bench.fit import Fit, Fitted
from explorer.advice.bench.parameters import Parameter
from explorer.advice.bench.sure import Moved
from explorer.advice.bench.unsure import METERS
from explorer.physics.arrays import FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """How one value has changed."""

    parameter: Parameter
    before: float
    after: float
    ratio_low: float
    """Ends of the range within which the value afterwards over that before lies, at 95 %."""
    ratio_high: float
    plus_minus: float
    """The same as a half-width of the logarithm."""
    each_for_itself: float
    """What it would be if nothing were the same both times."""
    is_told: bool
    """Whether both sittings tell anything of it at all."""

    @property
    def ratio(self) -> float:
        """Afterwards over before."""
        return self.after / self.before

    @property
    def is_seen(self) -> bool:
        """Whether the change is larger than what it may be wrong by."""
        return self.is_told and not self.ratio_low <= 1.0 <= self.ratio_high


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """What has changed in a device from one sitting to the next."""

    changes: tuple[Change, ...]
    apart_s: float | None
    """Time from the first run of the one to the first of the other; None without dates. [s]"""
    same_meter: bool
    same: tuple[str, ...]
    """Labels of what was taken as the same both times and matters."""


def drift(before: Fit, after: Fit, *, same_meter: bool = True) -> Drift:
    """What has changed between two sittings.

    Parameters
    ----------
    before, after : Fit
        Of the same values, both done; `before` of the earlier runs.
    same_meter : bool
        Whether the same meters were used.
    """
    n = len(before.values)
    moved = [
        {m.name: m for m in found.moved if _is_same(m, same_meter)} for found in (before, after)
    ]
    both = [name for name in moved[0] if name in moved[1]]
    common = [moved[1][name].by - moved[0][name].by for name in both]
    own = [
        m.by for found in (before, after) for m in found.moved
        if not (_is_same(m, same_meter) and m.name in both)
    ]  # fmt: skip
    zero = np.zeros((1, n))
    by_things = (np.vstack([zero, *common, *own]) ** 2).sum(axis=0)
    by_readings = sum(_logs(found, "by_readings") ** 2 for found in (before, after))
    whole = [_logs(found, "plus_minus") ** 2 for found in (before, after)]
    # What two starts of one search lie apart is in the whole alone.
    explained = [
        _logs(found, "by_readings") ** 2 + sum((m.by**2 for m in found.moved), zero[0])
        for found in (before, after)
    ]
    apart = sum(np.maximum(a - b, 0.0) for a, b in zip(whole, explained, strict=True))
    reach = np.sqrt(by_things + by_readings + apart)
    alone = np.sqrt(whole[0] + whole[1])
    kept = [
        moved[0][name].label for name, by in zip(both, common, strict=True)
        if np.any(np.abs(moved[0][name].by) > 2.0 * np.abs(by) + 1e-6)
    ]  # fmt: skip
    return Drift(
        changes=tuple(
            _change(a, b, float(reach[i]), float(alone[i]))
            for i, (a, b) in enumerate(zip(before.values, after.values, strict=True))
        ),
        apart_s=_apart_s(before, after),
        same_meter=same_meter,
        same=tuple(dict.fromkeys(kept)),
    )


def _is_same(moved: Moved, same_meter: bool) -> bool:
    return bool(moved.name) and moved.lasts and (same_meter or moved.name not in METERS)


def _logs(found: Fit, name: str) -> FloatArray:
    shares = np.array([getattr(v, name) / v.value for v in found.values])
    return np.asarray(np.log1p(np.minimum(shares, 1e20)))


def _change(before: Fitted, after: Fitted, reach: float, alone: float) -> Change:
    log_ratio = float(np.log(after.value / before.value))
    low, high = (float(np.exp(np.clip(log_ratio + s * reach, -50, 50))) for s in (-1.0, 1.0))
    return Change(
        parameter=before.parameter, before=before.value, after=after.value, ratio_low=low,
        ratio_high=high, plus_minus=reach, each_for_itself=alone,
        is_told=reach < 1.0 and all(
            v.is_followed and not v.slides and not v.at_limit for v in (before, after)
        ),
    )  # fmt: skip


def _apart_s(before: Fit, after: Fit) -> float | None:
    firsts = []
    for found in (before, after):
        starts = [one.run.start for one in found.after if one.run.start is not None]
        if not starts:
            return None
        firsts.append(min(starts))
    if (firsts[0].tzinfo is None) != (firsts[1].tzinfo is None):
        return None
    return (firsts[1] - firsts[0]).total_seconds()
