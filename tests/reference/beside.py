"""Answers, margins and verdict of the product beside the reference's."""

import contextlib
import math
from math import inf, isfinite

from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.judge import judge
from tests.reference import columns, nearby
from tests.reference.answers import Right
from tests.reference.habit import TooLong
from tests.reference.off import Off

MOST_MARGIN = 99.0
ALLOWED = {
    # Answers: shares of the value. A full threshold may lie where the panel all but rests.
    "first_connect_s": 1e-3, "first_charge_s": 1e-3, "first_operation_s": 1e-3,
    "full_charge_s": 1e-2, "dark_time_s": 1e-3, "longest_dark_s": 1e-6,
    "operations_per_charge": 1e-3, "balance_ratio": 2e-3,
    "lowest_store_V": 1e-3, "highest_store_V": 1e-3, "lowest_terminal_V": 1e-3,
    "served_share": 1e-2, "cut_offs_per_week": 1e-2,
    # Margins of the checks.
    "starts": 1e-3, "balance": 2e-3, "dark": 5e-3, "ratings": 1e-3,
}  # fmt: skip
LEAST_MARGIN = 1e-3
"""Margins below this are all alike: nothing of what is asked."""
COURSE = {
    "lowest_store_V", "highest_store_V", "lowest_terminal_V", "served_share", "cut_offs_per_week",
    "margin of dark",
}
HAIR = 10.0
"""Times the allowed difference by which a course parts from itself when it is nudged: it hangs on
a hair, and its answers are not compared."""
COUNTED = ("operations_per_charge", "served_share", "cut_offs_per_week")


def judged(case, most=400):
    """What the reference and the product say: Right, the case, its verdict and answers."""
    right = Right(case, most=most)
    given = Case(*case)
    return right, given, judge(given), answers(given)


def nearest(case, right, verdict, found, most=400):
    """Every answer and margin as given, or else `nearby`: see there."""
    rights = {nearby.GIVEN: right}

    def under(nudge):
        if nudge not in rights:
            rights[nudge] = Right(case, most, nudge)
        return compared(rights[nudge], verdict, found)

    result = nearby.nearest(under)
    hangs = result.wrong.keys() & COURSE and any(_parts(right, r) for r in rights.values())
    if not hangs:
        return result
    others = {name: off for name, off in result.off.items() if name not in COURSE}
    return nearby.Nearest(others, nearby.ON_A_HAIR)


def _parts(right, other):
    """Whether a nudge has led a course to another end, or to none."""
    if other.course is None:
        return right.course is not None and other.never_settles
    right_ends, other_ends = (
        r.answers | {"margin of " + name: margin for name, margin in r.margins.items()}
        for r in (right, other)
    )
    return any(
        _share(
            name.removeprefix("margin of "), other_ends.get(name, inf), right_ends.get(name, inf),
            _whole(name, right),
        ) > HAIR
        for name in COURSE
    )  # fmt: skip


def compared(right, verdict, found):
    """Every answer and every margin beside the reference's, as name: Off."""
    out = {}
    for name, value in right.answers.items():
        seen = min(found[name], MOST_MARGIN) if name == "balance_ratio" else found[name]
        value = min(value, MOST_MARGIN) if name == "balance_ratio" else value
        out[name] = Off(name, _share(name, seen, value, _whole(name, right)), seen, value)
    margins = {check.name: check.margin for check in verdict.checks}
    for name, value in right.margins.items():
        seen, value = (
            min(max(margin, LEAST_MARGIN), MOST_MARGIN) for margin in (margins[name], value)
        )
        if name == "dark" and right.hardest is not None:
            value = _as_level(right, seen, value)
        out["margin of " + name] = Off(name, _share(name, seen, value, 0.0), seen, value)
    return out


def _as_level(right, seen, value):
    """The margin of the dark nearest to what was seen that a level as true as a row's may give."""
    if _share("dark", seen, value, 0.0) <= 1.0:
        return value
    volts, *stretch = right.hardest
    off_v = math.copysign(columns.VOLTS * max(1.0, volts), seen - value)
    with contextlib.suppress(TooLong):
        least = max(right.lasts(volts + off_v, *stretch), LEAST_MARGIN)
        value = min(least, seen) if seen > value else max(least, seen)
    return value


def _whole(name, right):
    """What one run more or less, at the edge of a course, makes of an answer."""
    if name == "operations_per_charge":
        return 1.0
    if right.course is None or name not in COUNTED:
        return 0.0
    if name == "served_share":
        return max((1.0 / w for w in right.course.wanted if w > 0.0), default=0.0)
    return 604_800.0 / right.course.span_s


def _share(name, seen, value, whole):
    """Difference over what is allowed."""
    if seen == value or (seen == inf and value == inf):
        return 0.0
    if not (isfinite(seen) and isfinite(value)):
        return inf
    return abs(seen - value) / (ALLOWED[name] * max(abs(value), 1e-9) + whole + 1e-12)


def broken_rules(right, verdict):
    """Sentences of the two rules that no verdict may break, where it does."""
    out = []
    course = right.course
    if course is None:
        return out
    fails = [c.name for c in verdict.checks if c.state == "falls_short"]
    works = (
        right.serves_all
        and right.margins["starts"] >= 1.0
        and right.margins.get("ratings", 1.0) >= 1.0
        and "ratings" not in fails
        and (right.scenario.margins.closure_days == 0.0 or right.margins.get("dark", 0.0) >= 1.0)
        and (right.device.reserve_j == 0.0 or right.margins.get("dark", 1.0) >= 1.0)
    )
    if works and verdict.state == "falls_short":
        out.append(f"serves everything, yet falls short by {fails}")
    if course.totals.cut_offs > 0 and verdict.state == "runs":
        out.append(f"is cut off {course.totals.cut_offs} times, yet runs")
    share = right.answers.get("served_share", 1.0)
    if share < right.scenario.margins.served_share - _whole("served_share", right) and (
        verdict.state == "runs"
    ):
        out.append(f"serves {share:.3f}, yet runs")
    return out
