"""Contest: the same device on every kind of store, each in the size that fits it best."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil, inf, nan

import numpy as np
from numpy.typing import NDArray
from pydantic import ValidationError

from explorer.advice.assess import Assessment, assess
from explorer.advice.case import Case
from explorer.advice.cautions import cautions
from explorer.advice.criteria import RUNS, WORKS
from explorer.advice.fleet import Fleet, fleet
from explorer.advice.gathered import gathered
from explorer.advice.judge import judge
from explorer.advice.verdict import Verdict
from explorer.advice.year.bounds import outlasted
from explorer.advice.year.life import life
from explorer.engine.picture import Picture
from explorer.engine.trace import Trace
from explorer.scenario import parts
from explorer.scenario.model import Scenario, size_path
from explorer.scenario.part import StorePart, taken
from explorer.scenario.parts import StoreFamily
from explorer.scenario.price import named
from explorer.scenario.storage import Store, SupercapacitorStore
from explorer.scenario.supply import ConverterCharger
from explorer.text import say, texts

NEARLY_FULL = 0.95
"""Share of the scenario's full voltage that a string of units should reach."""
BAND = 0.6
"""Where in the band from cut-off to full the load connects, if its own threshold is too high."""
HOPELESS = 0.5
"""Reserve by the batch engine below which a log is judged in hours, not minute by minute."""
MOST_TRIES = 8
"""Sizes that run, or may run, by the batch engine and are judged exactly."""
PRESENT = "present"
"""Key of the entry for the store that the design has."""
OWN = "own "
"""Begins the key of a store of one's own."""
_IN_A_STRING: dict[str, str] = texts({
    "Two supercapacitors in series": "Supercapacitors in series",
    "Flat power supercapacitor pair": "Flat power supercapacitor",
})  # fmt: skip
"""Titles that tell a number of units, without it."""

CURVE_COLUMNS = 208
"""Two for each pixel of a cell: enough for a fine screen, and for a picture in a file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """The store voltage over the run, as a small picture of it is drawn."""

    span_s: float
    highest_v: float
    picture: Picture


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One store family at its best fit."""

    key: str
    title: str
    scenario: Scenario | None
    """The design with this store; None where it cannot be fitted at all."""
    size: float
    unit: str
    verdict: Verdict | None
    answers: dict[str, float]
    curve: Curve | None
    volume_cm3: float
    """Not a number where it is not known, as are mass and cost."""
    mass_g: float
    cost_class: float
    """Rank of cost for the same job, 1 (cheapest) to 5."""
    years_to_end: float
    cautions: tuple[str, ...]
    fits: bool
    """Whether the store's voltages suit the device."""
    price: float = nan
    """Of a store of one's own, in its currency; not a number where it is not known."""
    currency: str = ""

    @property
    def nearness(self) -> float:
        """How near a store is to running: mean over the checks of what they have of what is wanted.

        What cannot do its work even once is farther than all that can, whatever else it passes.
        """
        if self.verdict is None:
            return -inf
        met = [min(check.reserve, 1.0) for check in self.verdict.checks]
        pulse = next(check for check in self.verdict.checks if check.name == "pulse")
        once = pulse.margin >= 1.0 and self.answers.get("operations_per_charge", 1.0) >= 1.0
        return sum(met) / len(met) - (0.0 if once else 1.0)

    @property
    def is_own(self) -> bool:
        """Whether it is a store of one's own."""
        return self.key.startswith(OWN)


def replaced_store(scenario: Scenario, family: StoreFamily, size: float) -> Scenario | None:
    """The scenario on another store, its full and connect thresholds moved only where they must.

    None where the store's voltage never reaches what the device needs.
    """
    stretch = stretch_of(family, scenario.charger.full_V)
    empty_v, rated_v = (volts * stretch for volts in family.window_v)
    store = family.store(size)
    if stretch > 1.0:
        # Longer strings of larger units: for one bank the product of ESR and farads stays, and
        # each unit leaks by its own, larger capacitance.
        assert isinstance(store, SupercapacitorStore)
        store = store.model_copy(update={
            "units_in_series": round(store.units_in_series * stretch),
            "leakage_A": store.leakage_A * stretch,
            "balancing_A": store.balancing_A * stretch,
        })  # fmt: skip
    return _on_store(scenario, store, empty_v, rated_v)


def own_store(scenario: Scenario, part: StorePart) -> Scenario | None:
    """The scenario on a store of one's own, with thresholds moved as for any other."""
    store: Store = taken(part, scenario.store)
    return _on_store(scenario, store, store.empty_v, store.unit_rated_v * store.in_series)


def _on_store(
    scenario: Scenario, store: Store, empty_v: float, rated_v: float
) -> Scenario | None:
    full_v = min(scenario.charger.full_V, rated_v * store.usual_full)
    low_v = max(scenario.load.disconnect_V, empty_v)
    if full_v < low_v * 1.05:
        return None
    connect_v = scenario.load.connect_V
    if connect_v >= 0.97 * full_v or connect_v <= low_v:
        connect_v = low_v + BAND * (full_v - low_v)
    data = scenario.model_dump()
    data["store"] = store.model_dump()
    data["charger"]["full_V"] = full_v
    if isinstance(scenario.charger, ConverterCharger):
        # A converter is set to what the store takes; a diode lets through what the sun drives.
        data["charger"]["output_limit_A"] = min(
            scenario.charger.output_limit_A, store.most_charge_A
        )
    data["load"]["connect_V"] = connect_v
    data["store"]["years_in_service"] = scenario.store.years_in_service
    try:
        return Scenario.model_validate(data)
    except ValidationError:
        return None


def stretch_of(family: StoreFamily, full_v: float) -> float:
    """How much longer than usual a string of units must be for a full voltage; 1 where it fits."""
    units = family.numbers.get("units_in_series", 1.0)
    if family.kind != "supercapacitor" or units < 2:
        return 1.0
    one_v = family.window_v[1] / units * SupercapacitorStore.usual_full
    return max(ceil(NEARLY_FULL * full_v / one_v), units) / units


def fitted_title(family: StoreFamily, full_v: float) -> str:
    """Name of a family, with the number of units where the string is longer than usual."""
    units = family.numbers.get("units_in_series", 1.0)
    return title_with(family, round(units * stretch_of(family, full_v)))


def title_with(family: StoreFamily, units: int) -> str:
    """Name of a family in a string of so many units."""
    if units == family.numbers.get("units_in_series", 1.0):
        return family.title
    title = _IN_A_STRING.get(family.title, family.title)
    return say("{title}, {n} units", title=title, n=units)


def contest(
    case: Case, stopped: Callable[[], bool] = lambda: False, own: Sequence[StorePart] = ()
) -> Iterator[Entry]:
    """Every store of one's own as it is, and every family in the smallest size that runs.

    A family of which no size runs stands in its best size.

    Parameters
    ----------
    case : Case
        The design; everything but the store and its thresholds stays.
    stopped : callable
        Asked between stores; True ends the contest.
    own : sequence of StorePart
        Stores of one's own.
    """
    for number, part in enumerate(own):
        if stopped():
            return
        yield _own_entry(case, part, f"{OWN}{number}")
    for family in parts.store_families():
        if stopped():
            return
        yield _entry(case, family)


def present_entry(case: Case) -> Entry:
    """The design's own store beside them, which every kind has to beat.

    A scenario does not say how large, heavy or dear its store is.
    """
    scenario, found = case.scenario, assess(case)
    return Entry(
        key=PRESENT, title=say("As it is now"), scenario=scenario,
        size=scenario.store.size, unit=scenario.store.size_unit,
        verdict=found.verdict, answers=found.answers, curve=_curve(found.trace),
        volume_cm3=nan, mass_g=nan, cost_class=nan, years_to_end=_years_to_end(case),
        cautions=_titles(scenario), fits=True,
    )


def _own_entry(case: Case, part: StorePart, key: str) -> Entry:
    design = own_store(case.scenario, part)
    found = assess(case.with_scenario(design)) if design is not None else None
    return Entry(
        key=key, title=say("Own: {title}", title=part.title), scenario=design,
        size=part.store.size, unit=part.store.size_unit,
        verdict=found.verdict if found else None, answers=found.answers if found else {},
        curve=_curve(found.trace) if found else None,
        volume_cm3=nan if part.volume_cm3 is None else part.volume_cm3,
        mass_g=nan if part.mass_g is None else part.mass_g,
        cost_class=nan, price=nan if part.price is None else part.price,
        currency=named(part.currency),
        years_to_end=_years_to_end(found.case) if found is not None else 0.0,
        cautions=_titles(design) if design is not None else (), fits=design is not None,
    )


def _curve(trace: Trace) -> Curve:
    return Curve(
        span_s=trace.span_s,
        highest_v=trace.extremes().highest_store_v,
        picture=trace.picture(0.0, trace.span_s, CURVE_COLUMNS),
    )


def _years_to_end(case: Case) -> float:
    """Until the store counts as worn out; of a year by what it goes through in it. [a]"""
    if case.year is not None:
        return life(case).years_to_end
    design = case.scenario
    years = design.store.years_to_end_of_life(design.light.ambient_C, design.charger.full_V)
    return float(np.asarray(years))


def _titles(design: Scenario) -> tuple[str, ...]:
    return tuple(c.title for c in cautions(design) if c.where == "store")


def _entry(case: Case, family: StoreFamily) -> Entry:
    scenario = case.scenario
    unit = family.size_unit
    base = replaced_store(scenario, family, family.sizes[0])
    if base is None:
        return Entry(
            key=family.key, title=family.title, scenario=None, size=0.0, unit=unit, verdict=None,
            answers={}, curve=None, volume_cm3=0.0, mass_g=0.0, cost_class=family.cost_class,
            years_to_end=0.0, cautions=family.cautions, fits=False,
        )
    if case.year is not None:
        chosen, found = best_of_year(case, family)
    else:
        seen = fleet(case.with_scenario(base), sizes_of(scenario, base, family))
        chosen, found = _best(case, family, seen)
    size = family.sizes[chosen]
    design = _fitted(case, family, chosen).scenario
    stretch = stretch_of(family, scenario.charger.full_V)
    return Entry(
        key=family.key, title=fitted_title(family, scenario.charger.full_V),
        scenario=design, size=size, unit=unit,
        verdict=found.verdict, answers=found.answers, curve=_curve(found.trace),
        volume_cm3=family.volume_cm3(size) * stretch**2, mass_g=family.mass_g(size) * stretch**2,
        cost_class=family.cost_class,
        years_to_end=_years_to_end(found.case), cautions=_titles(design), fits=True,
    )


def sizes_of(
    scenario: Scenario, base: Scenario, family: StoreFamily
) -> dict[str, NDArray[np.float64]]:
    """What changes from one size of a family to the next, for the batch engine."""
    changes = {size_path(base): np.array(family.sizes)}
    if isinstance(scenario.charger, ConverterCharger):
        most = [family.store(size).most_charge_A for size in family.sizes]
        limit = np.minimum(scenario.charger.output_limit_A, most)
        changes["charger.output_limit_A"] = limit
    return changes


def _best(case: Case, family: StoreFamily, seen: Fleet) -> tuple[int, Assessment]:
    """The smallest size that runs by the exact march, or the most promising one."""
    _, _, sure = RUNS.seen(seen)
    hopeful = np.flatnonzero((seen.codes == 2) | ~sure)[:MOST_TRIES].tolist()
    chosen = int(np.argmax(seen.promise))
    for i in hopeful:
        tried = _fitted(case, family, i)
        if _may_run(tried) and judge(tried).state == "runs":
            return i, assess(tried)
        tried.forget()
    design = _fitted(case, family, chosen)
    if design.is_long and seen.reserve[chosen] < HOPELESS:
        found = assess(gathered(design))
        return chosen, replace(found, case=design)
    return chosen, assess(design)


def _may_run(tried: Case) -> bool:
    """Whether a design may run by what is known before its course is followed.

    Balance and ratings need no march; a long log is first marched in hours, and one that is far
    from running there is not followed minute by minute.
    """
    known = RUNS.at_once(tried)
    if known is not None and not known[0]:
        return False
    return not tried.is_long or judge(gathered(tried)).governing.reserve >= HOPELESS


def best_of_year(case: Case, family: StoreFamily) -> tuple[int, Assessment]:
    """The smallest size that runs all year, or the one that comes nearest.

    The batch engine knows too little of a year; what a bound rules out is not marched. Where the
    largest, full and asleep, does not outlast the dark, no smaller one does.
    """
    last = len(family.sizes) - 1
    least, _ = outlasted(_fitted(case, family, last))
    best, most = (last, (False, least)) if least < 1.0 else (0, (False, -1.0))
    for i in range(last + 1 if least >= 1.0 else 0):
        tried = _fitted(case, family, i)
        found = RUNS.at_once(tried)
        if found is None:
            verdict = judge(tried)
            found = WORKS.holds(verdict), RUNS.level(verdict)
            if RUNS.holds(verdict):
                return i, assess(tried)
        if found > most:
            best, most = i, found
        tried.forget()
    design = _fitted(case, family, best)
    if family.kind == "capacitor" and most[1] < HOPELESS:
        # It fills and empties every day: its year takes seconds, and its weeks say as much.
        in_weeks = assess(gathered(design))
        if in_weeks.verdict.state == "falls_short":
            return best, in_weeks
    return best, assess(design)


def _fitted(case: Case, family: StoreFamily, size: int) -> Case:
    fitted = replaced_store(case.scenario, family, family.sizes[size])
    assert fitted is not None
    return case.with_scenario(fitted)
