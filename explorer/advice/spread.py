"""Spread: what tolerances do to a thousand built units, and which of them matters."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy import stats

from explorer.advice.fleet import Fleet, judge_many
from explorer.advice.stops import largest_phase
from explorer.scenario.fields import describe
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario, get_value, owner_class, with_value
from explorer.scenario.sold import sold_span
from explorer.scenario.storage import CellStore
from explorer.scenario.supply import ConverterCharger
from explorer.text import say

FloatArray = NDArray[np.float64]

LIGHT_SPREAD = {"meter_at_panel": 0.15, "phone_or_lamp_data": 0.4, "guess": 0.6}
"""Half-width of the light level by how it is known (own judgement; lux meters alone stay within
some 9 % of spectral error, Energies 15(16) 5847)."""
CHUNK = 2500


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerance:
    """How far a quantity of a built unit may lie from its nominal value."""

    path: str
    label: str
    unit: str
    kind: Literal["relative", "absolute"]
    amount: float
    """Half-width, as a share of the nominal value or in its unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Influence:
    """Share of the spread of the governing margin that one tolerance explains."""

    path: str
    label: str
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """What a number of built units do."""

    builds: int
    share_runs: float
    share_works: float
    """Share that run or are marginal."""
    reserve: FloatArray
    """Smallest margin over the margin wanted, of every build."""
    margin: FloatArray
    governing: NDArray[np.intp]
    first_charge_s: FloatArray
    influences: tuple[Influence, ...]
    """Strongest first."""
    years: float
    """Age of the store that was judged. [a]"""


def default_tolerances(scenario: Scenario) -> tuple[Tolerance, ...]:
    """Sensible tolerances by kind of part; common practice, no source, unless a field says so.

    A panel without a data sheet may be any that is sold: its output, which goes with its area, lies
    as far around the usual one as the weakest module lies below it.
    """
    store, charger = scenario.store, scenario.charger
    rows: list[tuple[str, Literal["relative", "absolute"], float]] = [
        ("light.illuminance_lx", "relative", LIGHT_SPREAD[scenario.light.known_by]),
        ("light.cover_factor", "relative", 0.05),
    ]
    sold = sold_span(scenario)
    if sold is not None:
        rows.append(("panels.active_area_cm2", "relative", 1.0 - sold[0]))
    if isinstance(store, CellStore):
        rows += [
            ("store.capacity_mAh", "relative", 0.08),
            ("store.resistance_ohm", "relative", 0.3),
            ("store.self_discharge_per_month", "relative", 0.5),
        ]
    else:
        rows += [
            ("store.capacitance_F", "relative", store.tolerance),
            ("store.esr_ohm", "relative", 0.3),
            ("store.leakage_A", "relative", 0.6),
        ]
    if isinstance(charger, ConverterCharger):
        rows += [
            ("charger.efficiency", "relative", 0.04),
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
    return tuple(_tolerance(scenario, *row) for row in rows if _spreads(scenario, row[0]))


def _spreads(scenario: Scenario, path: str) -> bool:
    value = get_value(scenario, path)
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
    scenario: Scenario, log: LightLog | None, tolerances: tuple[Tolerance, ...], builds: int,
    seed: int,
) -> dict[str, FloatArray]:
    """Values of every build, from symmetric triangles around the nominal values.

    A triangle ends at the tolerance and favours the middle, as sorted parts do; values stay
    within their field's range.
    """
    random = np.random.default_rng(seed)
    values: dict[str, FloatArray] = {}
    size = ("store.capacitance_F", "store.capacity_mAh")
    for tolerance in sorted(tolerances, key=lambda t: t.path not in size):
        nominal = get_value(scenario, tolerance.path)
        if nominal is None:
            nominal = log.mean_lit_lx if log is not None else 0.0
        info = describe(owner_class(scenario, tolerance.path), tolerance.path.rpartition(".")[2])
        reach = tolerance.amount * (abs(nominal) if tolerance.kind == "relative" else 1.0)
        shift = random.triangular(-1.0, 0.0, 1.0, builds) * reach
        values[tolerance.path] = np.clip(nominal + shift, info.low, info.high)
    return values


def spread(
    scenario: Scenario,
    log: LightLog | None,
    tolerances: tuple[Tolerance, ...],
    *,
    builds: int = 10_000,
    years: float | None = None,
    seed: int = 1,
) -> Spread:
    """Judge many units built within tolerances.

    Parameters
    ----------
    scenario : Scenario
        The nominal design.
    log : LightLog, optional
        The measured light, where the scenario's pattern is a log.
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
        scenario = with_value(scenario, "store.years_in_service", years)
    wanted = tuple(t for t in tolerances if t.amount > 0)
    values = drawn_values(scenario, log, wanted, builds, seed)
    fleets = [
        judge_many(
            scenario, log,
            _own_values(scenario, {p: v[i : i + CHUNK] for p, v in values.items()}),
        )
        for i in range(0, builds, CHUNK)
    ] if values else [judge_many(scenario, log, {})]
    reserve = _joined(fleets, "reserve")
    codes = _joined(fleets, "codes").astype(int)
    return Spread(
        builds=len(reserve),
        share_runs=float(np.mean(codes == 2)),
        share_works=float(np.mean(codes >= 1)),
        reserve=reserve,
        margin=_joined(fleets, "margin"),
        governing=_joined(fleets, "governing").astype(np.intp),
        first_charge_s=_joined(fleets, "first_charge_s"),
        influences=_influences(
            wanted, values, reserve if np.ptp(reserve) > 0 else _joined(fleets, "telling")
        ),
        years=float(scenario.store.years_in_service),
    )


def _own_values(scenario: Scenario, values: dict[str, FloatArray]) -> dict[str, FloatArray]:
    """A built unit's capacitance does not drag its resistance and leakage along the range."""
    out = dict(values)
    held = {
        "store.capacitance_F": ("esr_ohm", "leakage_A", "balancing_A"),
        "store.capacity_mAh": ("resistance_ohm", "charge_limit_A", "discharge_limit_A"),
    }
    for size, keys in held.items():
        if size in out:
            for key in keys:
                if key in type(scenario.store).model_fields:
                    nominal = getattr(scenario.store, key)
                    out.setdefault(f"store.{key}", np.full(len(out[size]), float(nominal)))
    return out


def _joined(fleets: list[Fleet], name: str) -> FloatArray:
    return np.concatenate([np.asarray(getattr(f, name)) for f in fleets])


def _influences(
    tolerances: tuple[Tolerance, ...], values: dict[str, FloatArray], reserve: FloatArray
) -> tuple[Influence, ...]:
    """Squared rank correlation with the reserve, as a share of their sum."""
    if len(reserve) < 3 or np.ptp(reserve) == 0:
        return tuple(Influence(path=t.path, label=t.label, share=0.0) for t in tolerances)
    ranked = stats.rankdata(reserve)
    strength = []
    for tolerance in tolerances:
        x = values[tolerance.path]
        r = 0.0 if np.ptp(x) == 0 else float(np.corrcoef(stats.rankdata(x), ranked)[0, 1])
        strength.append(r * r)
    total = sum(strength) or 1.0
    rows = [
        Influence(path=t.path, label=t.label, share=s / total)
        for t, s in zip(tolerances, strength, strict=True)
    ]
    return tuple(sorted(rows, key=lambda i: -i.share))
