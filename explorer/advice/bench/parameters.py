"""What can be fitted to a logged run: values of a scenario, their ranges, and what each does."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Any, Literal

from explorer.advice.bench.steps import step_of
from explorer.advice.stops import largest_phase
from explorer.scenario.fields import describe
from explorer.scenario.logged_run import BenchRun
from explorer.scenario.model import Scenario, get_value, owner_class, size_path, with_value
from explorer.scenario.supply import ConverterCharger
from explorer.text import figure, say

Kind = Literal["light", "drain", "size", "resistance", "pulse", "other"]
"""How a value moves the store's voltage: with the light, at all hours, by its size, in a pulse."""
_KINDS: dict[str, Kind] = {
    "light.illuminance_lx": "light",
    "light.orientation_factor": "light",
    "light.cover_factor": "light",
    "light.soiling_factor": "light",
    "panels.active_area_cm2": "light",
    "charger.efficiency": "light",
    "charger.table_scale": "light",
    "charger.voc_fraction": "light",
    "charger.quiescent_A": "drain",
    "store.leakage_A": "drain",
    "store.balancing_A": "drain",
    "store.self_discharge_per_month": "drain",
    "load.sleep_A": "drain",
    "store.capacitance_F": "size",
    "store.capacity_mAh": "size",
    "store.esr_ohm": "resistance",
    "store.resistance_ohm": "resistance",
}
REACH = 1e4
"""Largest factor between a value and where its fit may end."""
SEEDS = 1e-6
"""Share of the range from which a value of zero begins, where the field's default is zero too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameter:
    """A value that may be fitted."""

    path: str
    label: str
    unit: str
    kind: Kind
    value: float
    """At present. [unit]"""
    start: float
    """Where the search begins, above zero. [unit]"""
    low: float
    """Ends of the search, above zero. [unit]"""
    high: float


def parameter(scenario: Scenario, path: str) -> Parameter:
    """A value of a scenario as one that may be fitted.

    Raises
    ------
    ValueError
        There is no such value, or it is no number that can be fitted; the sentence says which.
    """
    try:
        value = get_value(scenario, path)
        info = describe(owner_class(scenario, path), path.rpartition(".")[2])
    except (KeyError, AttributeError):
        raise ValueError(
            say("{path} is no value of this scenario; gloaming schema lists all.", path=path)
        ) from None
    if not isinstance(value, float) or not (isfinite(info.low) and isfinite(info.high)):
        raise ValueError(
            say(
                "{path} cannot be fitted; it is not a number that varies without steps, or it is "
                "left empty.",
                path=path,
            )
        )
    start = value if value > 0.0 else float(info.default or 0.0) or SEEDS * info.high
    return Parameter(
        path=path,
        label=_label(scenario, path, info.label),
        unit=info.unit,
        kind=_KINDS.get(path, "pulse" if path.startswith("load.operations") else "other"),
        value=value,
        start=start,
        low=max(info.low, start / REACH),
        high=min(info.high, start * REACH),
    )


def _label(scenario: Scenario, path: str, label: str) -> str:
    parts = path.split(".")
    if parts[:2] != ["load", "operations"]:
        return label
    name = scenario.load.operations[int(parts[2])].name
    return say("{label} of “{name}”", label=label, name=name)


def candidates(scenario: Scenario, run: BenchRun) -> tuple[Parameter, ...]:
    """The values that a run is most likely to tell of, those that are worth fitting first.

    The light's level is one of them where it was not logged, else the factor from the logged light
    to the panel; resistances only where the readings are close enough to see a pulse. In the dark
    there is no light to tell of, and of a device that was not connected nothing.
    """
    store, told = scenario.store, run.conditions
    lit, as_designed = told.light_lx != 0.0, told.draw == "design"
    paths = []
    if told.light_lx is None:
        logged = run.light is not None or scenario.light.illuminance_lx is None
        paths.append("light.orientation_factor" if logged else "light.illuminance_lx")
    paths += [f"store.{key}" for key in (store.size_key, store.leakage_key)]
    if told.draw in ("design", "asleep"):
        paths.append("load.sleep_A")
    if as_designed:
        paths += _pulse_paths(scenario)
    if (as_designed and sees_pulses(scenario, run)) or step_of(run) is not None:
        paths.append(f"store.{store.resistance_key}")
    if lit and isinstance(scenario.charger, ConverterCharger):
        paths.append(f"charger.{scenario.charger.efficiency_key}")
    paths.append("charger.quiescent_A")
    if lit and not scenario.panels.data_sheet:
        paths.append("panels.active_area_cm2")
    return tuple(parameter(scenario, path) for path in paths)


def _pulse_paths(scenario: Scenario) -> list[str]:
    """The largest phase of the operation that comes first."""
    if not scenario.load.operations:
        return []
    k = largest_phase(scenario, 0)
    phase = scenario.load.operations[0].phases[k]
    return [f"load.operations.0.phases.{k}.{phase.amount_key}"]


def sees_pulses(scenario: Scenario, run: BenchRun) -> bool:
    """Whether each run of an operation leaves at least one reading within its largest phase."""
    for i, operation in enumerate(scenario.load.operations):
        phase = operation.phases[largest_phase(scenario, i)]
        if operation.schedule.kind == "every" and run.step_s <= phase.duration_s:
            return True
    return False


def all_values(scenario: Scenario, values: Mapping[str, float]) -> dict[str, Any]:
    """The values, and beside a store's size what would follow it and is to stay as it is."""
    out: dict[str, Any] = dict(values)
    if size_path(scenario) in values:  # the store on the bench is one part of its range
        for key in scenario.store.followers:
            out.setdefault(f"store.{key}", getattr(scenario.store, key))
    return out


def with_values(scenario: Scenario, values: Mapping[str, float]) -> Scenario:
    """The scenario with fitted values.

    Raises
    ------
    pydantic.ValidationError
        They do not fit together.
    """
    whole = all_values(scenario, values)
    for path in sorted(whole, key=lambda p: p != size_path(scenario)):
        if get_value(scenario, path) != whole[path]:
            scenario = with_value(scenario, path, whole[path])
    return scenario


def check_choice(chosen: Sequence[Parameter], rows: int) -> None:
    """Refuse a choice that cannot be fitted.

    Raises
    ------
    ValueError
        Nothing is chosen, one value twice, or more values than readings can tell of.
    """
    if not chosen:
        raise ValueError(say("Choose at least one value to fit."))
    if len({p.path for p in chosen}) < len(chosen):
        raise ValueError(say("Choose each value only once."))
    if rows < 2 * (len(chosen) + 1):
        raise ValueError(
            say(
                "{n} readings are too few for {count} values; log more, or fit fewer.",
                n=figure(str(rows)),
                count=len(chosen),
            )
        )
