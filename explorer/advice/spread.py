"""Spread: what tolerances do to a thousand built units, and which of them matters."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.special import betaincinv

from explorer.advice.asked import verdict_with
from explorer.advice.case import Case
from explorer.advice.criteria import RUNS, WORKS
from explorer.advice.edges import Stopped
from explorer.advice.fleet import Fleet, fleet
from explorer.advice.influence import Influence, influences
from explorer.advice.sold import sold_span
from explorer.advice.stops import largest_phase
from explorer.advice.verdict import CHECK_NAMES
from explorer.advice.year.prospects import prospects_of_year
from explorer.engine.course import Interrupted
from explorer.physics.arrays import FloatArray
from explorer.scenario.fields import describe
from explorer.scenario.idle import idle_keys
from explorer.scenario.measured import still_measured
from explorer.scenario.model import Scenario, get_value, owner_class, size_path
from explorer.scenario.part import SECTION_OF
from explorer.scenario.supply import ConverterCharger
from explorer.text import say

LIGHT_SPREAD = {"meter_at_panel": 0.15, "phone_or_lamp_data": 0.4, "guess": 0.6}
"""Half-width of the light level by how it is known (own judgement; lux meters alone stay within
some 9 % of spectral error, Energies 15(16) 5847)."""
NORMAL_95 = 1.96
"""Standard deviations within which 95 % of a normal distribution lie."""
CHUNK = 2500
TOLD = 1000
"""Units of a year that tell what matters most."""
MOST_JUDGED, MOST_JUDGED_LOG = 200, 24
"""Units near a limit that are judged exactly; fewer under a log."""
FEWEST_TO_LEARN = 20
"""Units that must have been judged exactly before they speak for others (own judgement)."""
RARE = 0.02
"""Share of the units judged exactly that may be farther off, on either side (own judgement)."""
SLACK = 1.01
"""By how much farther off than those seen a margin of the batch engine may be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerance:
    """How far a quantity of a built unit may lie from its nominal value."""

    path: str
    label: str
    unit: str
    kind: Literal["relative", "absolute"]
    amount: float
    """Half-width, as a share of the nominal value or in its unit."""
    is_measured: bool = False
    """Whether it was measured of this very part: then the half-width holds 95 % of a normal
    distribution."""


class Share(NamedTuple):
    """A share of which some is not decided."""

    low: float
    """Those that surely do."""
    high: float
    """With those of which it is not sure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """What a number of built units do."""

    codes: NDArray[np.intp]
    """0 falls short, 1 marginal, 2 runs, of every build."""
    works_sure: NDArray[np.bool_]
    """Whether it is sure that a build works, or that it does not."""
    runs_sure: NDArray[np.bool_]
    judged: int = 0
    """Builds near a limit that the exact march has judged."""
    reserve: FloatArray
    """Smallest margin over the margin wanted, of every build."""
    margin: FloatArray
    governing: NDArray[np.intp]
    first_charge_s: FloatArray
    influences: tuple[Influence, ...]
    """Strongest first."""
    years: float
    """Age of the store that was judged. [a]"""
    case: Case
    values: dict[str, FloatArray]
    """What every build has at each path that varies or is held."""
    drawn: int = 0
    """Builds that stand for all in a year, whose batch engine decides none; 0 where it does."""

    @property
    def builds(self) -> int:
        """Number of units."""
        return len(self.codes)

    @property
    def runs(self) -> Share:
        """Share that run."""
        if self.drawn:
            return sampled_share(int((self.codes[: self.drawn] == 2).sum()), self.drawn)
        return _share(self.codes == 2, self.runs_sure)

    @property
    def works(self) -> Share:
        """Share that run or are marginal."""
        if self.drawn:
            return sampled_share(int((self.codes[: self.drawn] >= 1).sum()), self.drawn)
        return _share(self.codes >= 1, self.works_sure)


def _share(holds: NDArray[np.bool_], sure: NDArray[np.bool_]) -> Share:
    return Share(low=float(np.mean(holds & sure)), high=float(np.mean(holds | ~sure)))


def sampled_share(hits: int, drawn: int) -> Share:
    """Between which shares of all those lie of which so many of some drawn at random are hits.

    The exact interval that holds in 95 of 100 draws [C. J. Clopper and E. S. Pearson, Biometrika
    26 (1934) 404].

    Examples
    --------
    >>> low, high = sampled_share(24, 24)
    >>> f"{low:.4f} {high:.0f}"
    '0.8575 1'
    """
    low = 0.0 if hits == 0 else float(betaincinv(hits, drawn - hits + 1, 0.025))
    high = 1.0 if hits == drawn else float(betaincinv(hits + 1, drawn - hits, 0.975))
    return Share(low=low, high=high)


def default_tolerances(scenario: Scenario) -> tuple[Tolerance, ...]:
    """Sensible tolerances by kind of part; common practice, no source, unless a field says so.

    A panel without a data sheet may be any that is sold: its output, which goes with its area, lies
    as far around the usual one as the weakest module lies below it. What was measured of the very
    part that was taken has its own ± in place of the usual tolerance.
    """
    known = measured_shares(scenario)
    store, charger = scenario.store, scenario.charger
    rows: list[tuple[str, Literal["relative", "absolute"], float]] = [
        ("light.illuminance_lx", "relative", LIGHT_SPREAD[scenario.light.known_by]),
        ("light.cover_factor", "relative", 0.05),
    ]
    sold = sold_span(Case(scenario))
    if sold is not None and "panels.active_area_cm2" not in known:
        rows.append(("panels.active_area_cm2", "relative", 1.0 - sold[0]))
    rows += [(f"store.{key}", "relative", share) for key, share in store.spread]
    if isinstance(charger, ConverterCharger):
        rows += [
            (f"charger.{charger.efficiency_key}", "relative", 0.04),
            ("charger.voc_fraction", "relative", 0.03),
        ]
    rows += [
        ("charger.quiescent_A", "relative", 0.3),
        ("charger.full_V", "relative", 0.01),
        ("load.connect_V", "relative", 0.015),
        ("load.disconnect_V", "relative", 0.015),
        ("load.sleep_A", "relative", 0.3),
        ("light.ambient_C", "absolute", 5.0),
    ]
    for i, op in enumerate(scenario.load.operations):
        k = largest_phase(scenario, i)
        rows.append((f"load.operations.{i}.phases.{k}.{op.phases[k].amount_key}", "relative", 0.12))
        rows.append((f"load.operations.{i}.phases.{k}.duration_s", "relative", 0.15))
    usual = tuple(_tolerance(scenario, *row) for row in rows if _spreads(scenario, row[0]))
    own = {path: _measured(scenario, path, share) for path, share in known.items()}
    kept = tuple(own.pop(one.path, one) for one in usual)
    return (*kept, *own.values())


def measured_shares(scenario: Scenario) -> dict[str, float]:
    """The ± of every value that was measured of a part and is as it was, as a share of it."""
    return {
        f"{key}.{one.key}": one.share
        for key in SECTION_OF.values()
        for one in still_measured(getattr(scenario, key))
    }


def _measured(scenario: Scenario, path: str, share: float) -> Tolerance:
    one = _tolerance(scenario, path, "relative", share)
    if path == "panels.active_area_cm2":
        one = replace(one, label=describe(type(scenario.panels), "active_area_cm2").label)
    return replace(one, is_measured=True, label=say("{label}, measured", label=one.label))


def _spreads(scenario: Scenario, path: str) -> bool:
    """Whether a value can be otherwise in another unit, and counts for anything as it is."""
    value, (owner, _, key) = get_value(scenario, path), path.rpartition(".")
    if key in idle_keys(get_value(scenario, owner)):
        return False
    return path == "light.illuminance_lx" or (value is not None and value != 0)


def _tolerance(
    scenario: Scenario, path: str, kind: Literal["relative", "absolute"], amount: float
) -> Tolerance:
    info = describe(owner_class(scenario, path), path.rpartition(".")[2])
    label = info.label
    if path == "panels.active_area_cm2":
        label = say("Output of panels on sale")
    parts = path.split(".")
    if parts[:2] == ["load", "operations"]:
        name = scenario.load.operations[int(parts[2])].name
        label = say("{label} of “{name}”", label=label, name=name)
    return Tolerance(path=path, label=label, unit=info.unit, kind=kind, amount=amount)


def drawn_values(
    case: Case, tolerances: tuple[Tolerance, ...], builds: int, seed: int
) -> dict[str, FloatArray]:
    """Values of every build, from symmetric triangles around the nominal values.

    A triangle ends at the tolerance and favours the middle, as sorted parts do; what was measured
    lies around its value as its ± says, normally distributed. Values stay within their field's
    range.
    """
    scenario = case.scenario
    random = np.random.default_rng(seed)
    values: dict[str, FloatArray] = {}
    for tolerance in sorted(tolerances, key=lambda t: t.path != size_path(scenario)):
        nominal = get_value(scenario, tolerance.path)
        if nominal is None:
            nominal = case.mean_lit_lx
        info = describe(owner_class(scenario, tolerance.path), tolerance.path.rpartition(".")[2])
        reach = tolerance.amount * (abs(nominal) if tolerance.kind == "relative" else 1.0)
        if tolerance.is_measured:
            shift = random.normal(0.0, reach / NORMAL_95, builds)
        else:
            shift = random.triangular(-1.0, 0.0, 1.0, builds) * reach
        values[tolerance.path] = np.clip(nominal + shift, info.low, info.high)
    return values


def spread(
    case: Case,
    tolerances: tuple[Tolerance, ...],
    *,
    builds: int = 10_000,
    years: float | None = None,
    seed: int = 1,
) -> Spread:
    """Judge many units built within tolerances by the batch engine.

    Parameters
    ----------
    case : Case
        The nominal design.
    tolerances : tuple of Tolerance
        What varies, each on its own.
    builds : int
        Number of units.
    years : float, optional
        Age of the store; as in the scenario when left out. [a]
    seed : int
        Of the random numbers, so that the same question gives the same answer.
    """
    if years is not None:
        case = case.with_value("store.years_in_service", years)
    wanted = tuple(t for t in tolerances if t.amount > 0)
    drawn = drawn_values(case, wanted, builds, seed)
    values = _own_values(case.scenario, drawn)
    seen = [
        fleet(case, {p: v[i : i + CHUNK] for p, v in values.items()})
        for i in range(0, builds, CHUNK)
    ] if values else [fleet(case, {})]
    reserve = _joined(seen, "reserve")
    return Spread(
        codes=_joined(seen, "codes").astype(np.intp),
        works_sure=np.concatenate([WORKS.seen(s)[2] for s in seen]),
        runs_sure=np.concatenate([RUNS.seen(s)[2] for s in seen]),
        reserve=reserve,
        margin=_joined(seen, "margin"),
        governing=_joined(seen, "governing").astype(np.intp),
        first_charge_s=_joined(seen, "first_charge_s"),
        influences=influences(
            {one.path: one.label for one in wanted}, drawn,
            _of_year(case, values, seen) if case.year is not None and values else
            reserve if np.ptp(reserve) > 0 else _joined(seen, "telling"),
        ),
        years=float(case.scenario.store.years_in_service),
        case=case,
        values=values,
    )


def confirmed(
    found: Spread, stopped: Stopped = lambda: False, most: int | None = None
) -> Spread:
    """The same units, those near a limit judged by the exact march as far as it goes.

    Half of the marches are spread over all units of which the batch engine is not sure. They show
    how far its margins lie from the exact ones for this very design, which decides most of the
    others: those that lie farther from the limit than all but a few of them were off. The other
    half goes to the units nearest to the limit. Of what is left it is not sure whether it runs.
    Of a year the batch engine knows too little: all marches go to units drawn at random.

    Parameters
    ----------
    found : Spread
        What the batch engine says.
    stopped : callable
        Asked before every march.
    most : int, optional
        Units that are judged exactly; `MOST_JUDGED`, or fewer under a log, when left out.

    Raises
    ------
    Interrupted
        `stopped` said so.
    """
    if most is None:
        most = MOST_JUDGED_LOG if found.case.is_long else MOST_JUDGED
    table = _Judging(found, stopped)
    if found.case.year is not None:
        # Units are drawn one by one: the first of them are as good a sample as any.
        drawn = min(most, found.builds)
        table.judge(np.arange(drawn))
        return table.judged_alone(drawn)
    open_ = table.open_()
    table.judge(open_[np.unique(np.linspace(0, len(open_) - 1, most // 2).astype(int))]
                if len(open_) > most // 2 else open_)
    table.learn()
    table.judge(table.open_()[: most - table.count])
    return table.spread()


class _Judging:
    """What is known of every unit while some are judged exactly."""

    def __init__(self, found: Spread, stopped: Stopped) -> None:
        self._found, self._stopped = found, stopped
        self.count = 0
        self._batch = {"works": found.margin, "runs": found.reserve}
        self._level = {name: level.copy() for name, level in self._batch.items()}
        self._sure = {"works": found.works_sure.copy(), "runs": found.runs_sure.copy()}
        self._codes, self._governing = found.codes.copy(), found.governing.copy()
        self._exact = np.zeros(found.builds, bool)
        self._ready_s = found.first_charge_s.copy()

    def open_(self) -> NDArray[np.intp]:
        """Units of which it is not sure, nearest to a limit first."""
        unsure = np.flatnonzero(~(self._sure["works"] & self._sure["runs"]) & ~self._exact)
        far = np.min([np.abs(np.log(np.clip(self._level[n][unsure], 1e-6, 1e6)))
                      for n in ("works", "runs")], axis=0)  # fmt: skip
        return unsure[np.argsort(far, kind="stable")]

    def judge(self, units: NDArray[np.intp]) -> None:
        """Judge some units by the exact march."""
        for i in units.tolist():
            if self._stopped():
                raise Interrupted
            place = {path: float(v[i]) for path, v in self._found.values.items()}
            verdict = verdict_with(self._found.case, place)
            works = verdict is not None and WORKS.holds(verdict)
            runs = verdict is not None and RUNS.holds(verdict)
            self._codes[i] = int(works) + int(runs)
            if verdict is not None:
                self._level["works"][i] = WORKS.level(verdict)
                self._level["runs"][i] = RUNS.level(verdict)
                self._ready_s[i] = next(c.value for c in verdict.checks if c.name == "starts")
                self._governing[i] = CHECK_NAMES.index(verdict.governing.name)
            self._exact[i] = True
            self.count += 1

    def learn(self) -> None:
        """Decide the units that lie farther from the limit than the batch engine was seen off."""
        exact = np.flatnonzero(self._exact)
        if len(exact) < FEWEST_TO_LEARN:
            return
        for name, batch in self._batch.items():
            ratio = self._level[name][exact] / np.maximum(batch[exact], 1e-12)
            low, high = np.quantile(ratio, (RARE, 1.0 - RARE)) * (1.0 / SLACK, SLACK)
            self._sure[name] |= (batch * low >= 1.0) | (batch * high < 1.0)

    def spread(self) -> Spread:
        """What is known now."""
        return replace(
            self._found, codes=self._codes, governing=self._governing, judged=self.count,
            reserve=self._level["runs"], margin=self._level["works"],
            works_sure=self._sure["works"] | self._exact,
            runs_sure=self._sure["runs"] | self._exact,
        )


    def judged_alone(self, drawn: int) -> Spread:
        """The first units alone, all of which were judged exactly."""
        whole, some = self.spread(), slice(drawn)
        return replace(
            whole, codes=whole.codes[some], governing=whole.governing[some],
            reserve=whole.reserve[some], margin=whole.margin[some],
            works_sure=whole.works_sure[some], runs_sure=whole.runs_sure[some],
            first_charge_s=self._ready_s[some], drawn=drawn,
            values={path: v[some] for path, v in whole.values.items()},
        )


def _own_values(scenario: Scenario, values: dict[str, FloatArray]) -> dict[str, FloatArray]:
    """A built unit's capacitance does not drag its resistance and leakage along the range."""
    out = dict(values)
    sizes = out.get(size_path(scenario))
    if sizes is not None:
        for key in scenario.store.followers:
            nominal = float(getattr(scenario.store, key))
            out.setdefault(f"store.{key}", np.full(len(sizes), nominal))
    return out


def _joined(fleets: list[Fleet], name: str) -> FloatArray:
    return np.concatenate([np.asarray(getattr(f, name)) for f in fleets])


def _of_year(case: Case, values: dict[str, FloatArray], seen: list[Fleet]) -> FloatArray:
    """About what the first units have to spare: the bounds of their year, and their start."""
    starts = np.concatenate([s.margins["starts"] / s.wanted["starts"] for s in seen])[:TOLD]
    found = prospects_of_year(case, {p: v[:TOLD] for p, v in values.items()})
    return np.minimum(found, starts) if np.ptp(starts) > 0 else found  # weeks may hold no light
