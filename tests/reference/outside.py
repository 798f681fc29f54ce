"""The batch and the edges seen from outside: against the exact march, and against the reference."""

from explorer.advice.asked import verdict_with
from explorer.advice.case import Case
from explorer.advice.criteria import WORKS
from explorer.advice.edges import find_edges
from explorer.advice.fleet import fleet
from explorer.advice.judge import judge
from explorer.advice.reach import reach
from explorer.advice.stops import LIGHT_STOPS
from tests.reference import habit
from tests.reference.device import Device
from tests.reference.off import Off

FAR = 0.3
"""Share by which a margin of the batch may lie from the exact one near a limit."""


def batch(case):
    """Every margin of the batch beside the exact one, where either is between 0.5 and 2."""
    given = Case(*case)
    exact = {c.name: c.margin for c in judge(given).checks}
    found = fleet(given, {"margins.closure_days": [case[0].margins.closure_days]})
    out = {}
    for name, margins in found.margins.items():
        seen, right = float(margins[0]), exact[name]
        if 0.5 < seen < 2.0 or 0.5 < right < 2.0:
            out["margin of " + name] = Off(
                name, abs(seen - right) / (FAR * max(right, 0.5)), seen, right
            )
    return out


def contradicts(found):
    """Names of margins that fail clearly in one engine and pass clearly in the other."""
    return [
        name for name, off in found.items()
        if min(off.seen, off.right) < 0.75 and max(off.seen, off.right) > 1.3
    ]


def edges(case):
    """Both sides of every edge of the light: the verdict's own, and the reference's balance."""
    scenario, log = case
    given = Case(*case)
    out = {}
    found = find_edges(given, "light.illuminance_lx", WORKS, LIGHT_STOPS)
    for i, edge in enumerate(found.edges):
        inside = verdict_with(given, {"light.illuminance_lx": edge.value})
        beyond = verdict_with(given, {"light.illuminance_lx": edge.beyond})
        right = inside is not None and inside.state != "falls_short" and (
            beyond is None or beyond.state == "falls_short"
        )
        out[f"edge {i} of the verdict"] = Off("edge", 0.0 if right else 2.0, edge.value,
                                              edge.beyond)
    least = reach(given)["least_light_for_balance_lx"]
    if least.bound == "" and least < 1e5:
        ratio = _balance_at(scenario, log, float(least))
        below = _balance_at(scenario, log, 0.98 * float(least))
        holds = ratio >= 1.0 - 3e-3 and below < 1.0 + 3e-3
        out["least light for balance"] = Off("balance", 0.0 if holds else 2.0, ratio, below)
    return out


def _balance_at(scenario, log, lux):
    light = scenario.light.model_copy(update={"illuminance_lx": lux})
    return habit.balance(Device(scenario.model_copy(update={"light": light}), log))[0]
