"""The batch engine held against the exact march, reading by reading, over generated scenarios.

``python -m tests.advice.agreement 2000`` compares so many and tells what parts.
"""

import sys
from dataclasses import dataclass, field

import numpy as np
from pydantic import ValidationError

from explorer.advice.case import Case
from explorer.advice.checks import asked_of, judged
from explorer.advice.criteria import RUNS, WORKS
from explorer.advice.fleet import fleet
from explorer.advice.readings import one, times
from explorer.advice.readings.pulse import spare
from explorer.advice.verdict import CHECK_NAMES
from explorer.scenario.model import Scenario
from tests.reference.strategy import Draw, _drawn, _neat

FAR = 3.0
"""A ratio above this is only known to be above it."""
FEW_RUNS = 1.5
"""Runs that two courses may part by where few are wanted: whole ones are told from parts."""
NIGHT_S = 16 * 3600.0


class Seeded(Draw):
    """Draws as the strategy draws, from a generator of random numbers: no two are alike."""

    def __init__(self, rng, number):
        self.rng, self.number = rng, number

    def beside(self, name):
        return Seeded(np.random.default_rng([*self.number, *name.encode()]), self.number)

    def between(self, low, high):
        return _neat(self.rng.uniform(low, high))

    def log(self, low, high):
        return _neat(10.0 ** self.rng.uniform(np.log10(low), np.log10(high)))

    def one(self, *choices):
        return choices[self.rng.integers(len(choices))]

    def whole(self, low, high):
        return int(self.rng.integers(low, high + 1))

    def chance(self, percent):
        return bool(self.rng.integers(100) < percent)


def scenarios(seed, count):
    """Scenarios of every kind with their logs, brighter than drawn so that many of them run."""
    rng = np.random.default_rng(seed)
    made = tried = 0
    while made < count:
        data, log = _drawn(Seeded(rng, (seed, tried)))
        tried += 1
        brighter = float(10.0 ** rng.uniform(0.3, 1.5))
        if data["light"].get("illuminance_lx"):
            data["light"]["illuminance_lx"] *= brighter
        if rng.random() < 0.8:
            # Parts that stand it, so that a rating seldom decides everything.
            data["margins"]["full_sun_lx"] = 0.0
            data["store"]["rated_V"] = 1.6 * data["store"].get("rated_V", 1.0)
            if data["store"]["kind"] == "cell":
                del data["store"]["rated_V"]
                data["store"]["discharge_limit_A"] = 100.0
                data["store"]["charge_above_C"] = -30.0
            if data["store"]["kind"] == "supercapacitor":
                data["store"]["balancing"] = "active"
        try:
            scenario = Scenario.model_validate(data)
        except ValidationError:
            continue  # thresholds that do not fit together
        made += 1
        yield scenario, log


@dataclass
class Compared:
    """One scenario read both ways."""

    exact: object
    batch: object
    codes: tuple[int, int]
    sure: bool
    hopeless: bool
    close: bool
    """Whether the exact reading lies within the tolerance of a limit."""
    decided: bool
    """Whether the batch decides by itself."""
    parted: dict[str, tuple[float, float]] = field(default_factory=dict)


def _code(checks):
    margin = np.array([float(checks[n].counted[0]) for n in CHECK_NAMES])
    wanted = np.array([float(checks[n].wanted[0]) for n in CHECK_NAMES])
    met = np.array([n in ("ratings", "service") for n in CHECK_NAMES]) & (margin >= wanted)
    works = bool(np.all(margin >= 1.0))
    return int(works) + int(works and bool(np.all((margin >= wanted) | met)))


def _dark_ratio(found):
    return float(times(found.dark.lasts_s, found.dark.needed_s)[0])


def compare(scenario, log):
    """What the two engines read of a scenario, and where they part by more than is stated."""
    ours, asked = one.readings(Case(scenario, log)), asked_of(scenario, 1)
    given = fleet(Case(scenario, log), {})
    theirs = given.readings
    checks = judged(ours, asked), given.judged
    within = {name: float(share[0]) for name, share in theirs.within.items()}
    tolerance = within | {
        "service": max(
            within["service"], FEW_RUNS / max(float(ours.wanted.min(initial=99.0)), 1.0)
        ),
        "ratings": 1e-9,
    }
    close = any(
        abs(float(c.margin[0]) / limit - 1.0) <= tolerance[n]
        for n, c in checks[0].items()
        for limit in (1.0, float(c.wanted[0]))
    )
    ratios = [float(r.brought_w[0] / max(r.taken_w[0], 1e-30)) for r in (ours, theirs)]
    found = Compared(
        exact=ours, batch=theirs, codes=(_code(checks[0]), _code(checks[1])),
        sure=bool(theirs.sure[0] or theirs.falls[0]), hopeless=bool(theirs.falls[0]), close=close,
        decided=bool(WORKS.seen(given)[2][0] and RUNS.seen(given)[2][0]),
    )

    def hold(name, a, b, share, beside=0.0):
        low, high = min(a, b), max(a, b)
        if low <= FAR and high - low > share * high + beside:
            found.parted[name] = (a, b)

    hold("balance", *ratios, within["balance"])
    ready = float(ours.ready_s[0]), float(theirs.ready_s[0])
    if np.isfinite(ready).all():
        if abs(ready[0] - ready[1]) > max(within["starts"] * max(ready), NIGHT_S):
            found.parted["ready_s"] = ready
    elif ready[0] != ready[1]:
        found.parted["ready_s"] = ready
    if (ours.cut_offs[0] > 0) != (theirs.cut_offs[0] > 0):
        found.parted["cut_offs"] = float(ours.cut_offs[0]), float(theirs.cut_offs[0])
        return found  # what else is read belongs to another course

    def hold_between(name, of):
        """A store that may stand anywhere in a wide band is read at both ends of it."""
        exact, low, high = (of(r) for r in (ours, theirs.low or theirs, theirs.high or theirs))
        if low > high:
            low, high = high, low
        hold(name, exact, min(max(exact, low), high), within[name], 0.05)

    hold_between("dark", _dark_ratio)
    if ours.pulse is not None:
        hold_between("pulse", lambda r: float(spare(r.pulse)[0]))
    for j in range(ours.served.shape[1]):
        wanted = [float(r.wanted[0, j]) for r in (ours, theirs)]
        shares = [
            min(float(r.served[0, j]) / w, 1.0) if w > 0 else 1.0
            for r, w in zip((ours, theirs), wanted, strict=True)
        ]
        hold("served", *shares, within["service"], FEW_RUNS / max(min(wanted), 1e-9))
    hold("connected", float(ours.connected[0]), float(theirs.connected[0]), 0.05)
    return found


def main(count, seed=1):
    """Compare and tell."""
    seen = sure = plain = good = good_sure = wrong = 0
    for i, (scenario, log) in enumerate(scenarios(seed, count)):
        found = compare(scenario, log)
        seen, sure = seen + 1, sure + found.decided
        plain += found.sure and not found.hopeless
        works = found.codes[0] > 0
        good, good_sure = good + works, good_sure + (works and found.decided)
        parts = found.parted if found.sure and not found.hopeless else {}
        verdict = found.decided and found.codes[0] != found.codes[1]
        wrong += verdict
        if parts or verdict:
            kinds = (scenario.store.kind, scenario.charger.kind, scenario.light.pattern.kind,
                     *(op.schedule.kind for op in scenario.load.operations))
            said = "WRONG" if verdict else "parted"
            print(i, *kinds, found.codes, said, "close" if found.close else "FAR", parts,
                  flush=True)
    print(f"{seen} scenarios, {sure} decided by the batch, {wrong} of them wrongly; "
          f"{plain} sure and not past saving; {good} work, {good_sure} of these decided")


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1)
