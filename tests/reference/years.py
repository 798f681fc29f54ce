"""Answers, margins and months of a year of the product beside the reference's."""

from math import inf, isfinite

import numpy as np

from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.advice.year.answers import month_answers
from explorer.advice.year.life import life
from explorer.advice.year.readings import month_checks
from explorer.advice.year.study import year_study
from tests.reference import columns
from tests.reference.beside import LEAST_MARGIN, MOST_MARGIN
from tests.reference.off import Off
from tests.reference.sky import Year, light_of
from tests.reference.year import RightYear, run_share

ALLOWED = {
    # Shares of the value; light within a month is blended from a ladder of levels.
    "first_connect_s": 3e-3, "first_charge_s": 3e-3, "longest_dark_s": 1e-6,
    "balance_ratio": 3e-3, "lowest_store_V": 2e-3, "highest_store_V": 2e-3,
    "lowest_terminal_V": 2e-3, "served_share": 1e-2, "cut_offs_per_week": 2e-2, "days_off": 2e-2,
    "starts": 3e-3, "balance": 3e-3, "dark": 1e-2, "ratings": 1e-3,
    "month's share": 1e-2, "month connected": 1e-2, "month's balance": 3e-3,
    "month's begin": 2e-3, "cycles": 1e-2, "wear": 5e-3,
}  # fmt: skip
BLENDED = 4e-3
"""Share by which the light of a month may be off that is blended from a ladder of levels."""
DAWN_S = 2700.0
SPELL = 0.03
"""Share of a month for which a device may be off more or less that is off now and then."""
DAYS = ("longest_dark_begins_day", "works_from_day", "works_to_day")


def of_lamps(case):
    """Whether lamps are all the light."""
    place = case.scenario.light.pattern.place
    return place.kind == "indoors" and place.daylight_factor == 0.0


def own_light(case):
    """The reference's own light where it is lamps alone; else the product's, held in `sky`."""
    if of_lamps(case):
        return light_of(case.scenario.light.pattern)
    year = case.year
    return Year(year.start, year.daylight_lx, year.electric_lx, year.temperature_c)


def judged_year(scenario, most=60_000):
    """Differences by name, and the reference."""
    case = Case(scenario)
    right = RightYear(scenario, own_light(case), most)
    return compared(case, right), right


def compared(case, right):
    """Every number of a year that the reference knows, as name: Off."""
    begins = _begins(case)
    if right.course is not None:
        right.follow(begins)
    found, margins = answers(case), {c.name: c.margin for c in judge(case).checks}
    run, cut_off = _one_run(right), bool(right.answers.get("cut_offs_per_week"))
    whole = {
        "served_share": run, "cut_offs_per_week": 604_800.0 / right.begins[-1],
        "days_off": 1.0, "cycles": run_share(right),
    }
    if not of_lamps(case):
        # Blended light comes to a full store a little earlier or later, and leaves single quarter
        # hours of dawn to the ladder's lowest step.
        charger = case.scenario.charger
        whole |= {"month's begin": 0.3 * charger.full_hysteresis_V, "longest_dark_s": DAWN_S}
        whole |= dict.fromkeys(("balance", "balance_ratio"), BLENDED * right.margins["balance"])
        # Which evening a device is cut off on hangs on little.
        whole["month connected"] = SPELL if cut_off else 0.0
        whole["month's balance"] = BLENDED * max(right.by_month_balance)
    out = {}

    def put(name, seen, value, allowed=None):
        share = _share(seen, value, ALLOWED[allowed or name], whole.get(allowed or name, 0.0))
        out[name] = Off(name, share, seen, value)

    for name, value in right.answers.items():
        if name in DAYS:
            continue
        most = MOST_MARGIN if name == "balance_ratio" else inf
        put(name, min(found[name], most), min(value, most))
    for name, value in right.margins.items():
        seen, value = (min(max(m, LEAST_MARGIN), MOST_MARGIN) for m in (margins[name], value))
        if name == "dark":
            if cut_off and not of_lamps(case):
                seen, value = float(seen >= 1.0), float(value >= 1.0)
            value = _as_level(right, seen, value)
        put("margin of " + name, seen, value, name)
    _days(found, right, out)
    rows = month_checks(case)["balance"]
    for k, value in enumerate(right.by_month_balance):
        seen = min(float(rows.value[k] / rows.limit[k]), MOST_MARGIN)
        put(f"balance of month {k + 1}", seen, min(value, MOST_MARGIN), "month's balance")
    if right.course is not None:
        for k, (seen, month) in enumerate(zip(begins, right.course, strict=True)):
            put(f"begin of month {k + 1}", seen, month.begin_v, "month's begin")
        _months(case, right, put, whole)
        put("cycles", life(case).cycles_per_year, right.cycles)
        cycles = abs(life(case).cycles_per_year - right.cycles)
        if case.scenario.store.kind == "cell":
            whole["wear"] = cycles / case.scenario.store.cycles_to_end
        put("wear", life(case).wear_per_year, right.wear)
    return out


def _begins(case):
    """Store voltage with which each month of the settled year begins."""
    return [
        float(run.engine.field.voltage_at(run.part.start.charge_c))
        for run in year_study(case).months
    ]


def _months(case, right, put, whole):
    """Share and time connected of every month; one run may fall on either side of its end."""
    rows = zip(month_answers(case), right.course, right.months, strict=True)
    for k, (seen, month, device) in enumerate(rows):
        share, connected = right.month_shares[k], month.totals.connected_s / device.period_s
        whole["month's share"] = max((1.5 / w for w in month.wanted if w > 0.0), default=0.0)
        put(f"share of month {k + 1}", seen.served_share, share, "month's share")
        put(f"connected in month {k + 1}", seen.connected_share, connected, "month connected")


def _days(found, right, out):
    """Dates: that of the longest of dark stretches, and of the longest time that it works."""
    longest = right.answers["longest_dark_s"]
    days = {at // 86_400.0 + 1.0 for at, length in right.gaps if length >= longest - 1.0} or {0.0}
    seen = found["longest_dark_begins_day"]
    wrong = 0.0 if seen in days else inf
    out["longest_dark_begins_day"] = Off("longest_dark_begins_day", wrong, seen, min(days))
    works = right.answers.get("works_from_day"), right.answers.get("works_to_day")
    if right.course is None or found["days_off"] != right.answers["days_off"]:
        return
    seen = found["works_from_day"], found["works_to_day"]
    if _length(seen, right) != _length(works, right) or right.answers["days_off"] == 0.0:
        for name, one, other in zip(DAYS[1:], seen, works, strict=True):
            out[name] = Off(name, 0.0 if one == other else inf, one, other)


def _length(days, right):
    """Of two stretches as long either may be told."""
    whole = round(right.begins[-1] / 86_400.0)
    return (days[1] - days[0]) % whole


def _one_run(right):
    if right.course is None:
        return 0.0
    wanted = np.sum([m.wanted for m in right.course], axis=0)
    return max((1.5 / w for w in wanted if w > 0.0), default=0.0)


def _as_level(right, seen, value):
    """The margin of the dark nearest to what was seen that a level as true as a row's may give."""
    if _share(seen, value, ALLOWED["dark"], 0.0) <= 1.0:
        return value
    off_v = columns.VOLTS if seen > value else -columns.VOLTS
    other = max(right.hardest_with(off_v), LEAST_MARGIN)
    return min(other, seen) if seen > value else max(other, seen)


def _share(seen, value, allowed, whole):
    if seen == value:
        return 0.0
    if not (isfinite(seen) and isfinite(value)):
        return inf
    return abs(seen - value) / (allowed * max(abs(value), 1e-9) + whole + 1e-12)
