"""Turns that one leg stands for lie where they lie if each drifts by a share of the one before."""

import numpy as np
import pytest

from explorer.engine.turns import Turns

OPENING_C, DRIFT_C, RATIO, TURN_S, LONGER = 70.0, -5e-3, 0.998, 270.0, 0.4
"""The kept turn; a turn that begins one coulomb higher lasts `LONGER` seconds longer."""


def begins(turn):
    """Charge at which a turn begins, by the geometric row. [C]"""
    return OPENING_C + DRIFT_C * (RATIO**turn - 1.0) / (RATIO - 1.0)


def length(turn):
    return TURN_S + LONGER * (begins(turn) - OPENING_C)


@pytest.mark.parametrize("first", [1, 44, 87])
def test_turns_of_a_fading_drift_lie_where_they_lie_however_late_they_come(first):
    """43 turns in a leg of their own, whose drift is by far not that of the kept turn any more."""
    times = 43
    one = {
        "turn_s": TURN_S, "opening_c": OPENING_C, "closing_c": OPENING_C + DRIFT_C, "times": times,
        "begin_c": begins(first), "end_c": begins(first + times),
        "span_s": sum(length(first + k) for k in range(times)),
    }
    turns = Turns(**{name: np.full(times, value) for name, value in one.items()})
    count = np.arange(times)
    shift = turns.shift(count, np.zeros(times))
    assert shift == pytest.approx(begins(first + count) - OPENING_C, abs=1e-3 * 43 * 5e-3)
    lasts_s = np.array([length(first + k) for k in count])
    found, into = turns.split(np.cumsum(lasts_s) - 0.5 * lasts_s, late=True)
    assert (found == count).all()
    assert into == pytest.approx(0.5 * TURN_S, abs=0.01)


def test_turns_without_drift_do_not_drift():
    same = {"turn_s": 9.0, "opening_c": 2.0, "closing_c": 2.0, "times": 5.0, "span_s": 45.0,
            "begin_c": 2.0, "end_c": 2.0}  # fmt: skip
    turns = Turns(**{name: np.array([value]) for name, value in same.items()})
    assert not turns.drift()
    assert turns.shift(np.array([3]), np.array([4.0])) == 0.0
