"""Answers, margins and verdict of the product beside the reference's."""

from math import inf, isfinite

from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.judge import judge
from tests.reference import nearby
from tests.reference.answers import Right
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
COUNTED = ("operations_per_charge", "served_share", "cut_offs_per_week")


def judged(case, most=400):
    """What the reference and the product say: Right, the case, its verdict and answers."""
    right = Right(case, most=most)
    given = Case(*case)
    return right, given, judge(given), answers(given)


def nearest(case, right, verdict, found, most=400):
    """Every answer and margin, beside a reference whose light may differ a little (`nearby`)."""
    return nearby.nearest(
        lambda light: compared(
            right if light == 1.0 else Right(nearby.in_light(case, light), most=most),
            verdict, found,
        )
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
        out["margin of " + name] = Off(name, _share(name, seen, value, 0.0), seen, value)
    return out


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
