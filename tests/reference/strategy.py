"""Scenarios over the whole model, so sized that something happens within hours to two weeks.

Currents are drawn as shares of what the panel gives, charges as shares of what the store holds
between its thresholds: designs that run, that just miss and that fail are about equally frequent.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from math import log10
from random import Random

import numpy as np
from hypothesis import strategies as st
from pydantic import ValidationError

from explorer.scenario import parts
from explorer.scenario.light_log import LightLog
from explorer.scenario.model import Scenario
from tests.reference.device import DAYS, kt_over_q

TECHNOLOGIES = (
    "amorphous", "crystalline", "gallium_arsenide", "dye_sensitised", "organic", "perovskite",
)
SOURCES = ("led_4000", "led_2700", "fluorescent_4000", "incandescent", "daylight_glass")
MOST_RUNS = 250
"""Runs of an operation in a period; more of them only cost time."""


@dataclass(frozen=True)
class Fortune:
    """How kindly a design is drawn: else nearly all fall short, each for several reasons."""

    kind: bool

    def __call__(self, kindly, else_):
        return kindly if self.kind else else_


def _neat(value):
    """Three digits: what a person would type, and short in a report."""
    return float(f"{value:.3g}")


class Draw:
    """What a strategy draws, by name."""

    def __init__(self, draw):
        self.draw = draw

    def between(self, low, high):
        return _neat(self.draw(st.floats(low, high, allow_nan=False)))

    def log(self, low, high):
        return _neat(10.0 ** self.draw(st.floats(log10(low), log10(high), allow_nan=False)))

    def one(self, *choices):
        return self.draw(st.sampled_from(choices))

    def whole(self, low, high):
        return self.draw(st.integers(low, high))

    def chance(self, percent):
        return self.draw(st.integers(0, 99)) < percent

    def beside(self, name):
        """Lots of their own for a new field: what else is drawn stays as it was.

        ``"settling_h": d.beside("settling_h").log(2.0, 100.0)`` leaves the design of every number
        as it is in all other fields.
        """
        return self


@st.composite
def cases(draw):
    """A valid scenario, and its log or None."""
    for _ in range(20):
        data, log = _drawn(Draw(draw))
        try:
            return Scenario.model_validate(data), log
        except ValidationError:
            continue  # thresholds that do not fit together
    raise AssertionError("no valid scenario in twenty trials")


class Lots(Draw):
    """The same from a number alone: what hypothesis draws changes with every line of the sources,
    from which it takes constants."""

    def __init__(self, number):
        self.number, self.lots = number, Random(number)

    def beside(self, name):
        return Lots(f"{self.number} {name}")

    def between(self, low, high):
        return _neat(self.lots.uniform(low, high))

    def log(self, low, high):
        return _neat(10.0 ** self.lots.uniform(log10(low), log10(high)))

    def one(self, *choices):
        return self.lots.choice(choices)

    def whole(self, low, high):
        return self.lots.randint(low, high)

    def chance(self, percent):
        return self.lots.randrange(100) < percent


def numbered(number):
    """The case of a number, the same on every day: a valid scenario, and its log or None."""
    lots = Lots(number)
    while True:
        data, log = _drawn(lots)
        try:
            return Scenario.model_validate(data), log
        except ValidationError:
            continue


def _drawn(d):
    fortune = Fortune(kind=d.chance(60))
    light, log, lit_s, period_s = _light(d, fortune)
    kind = d.one("capacitor", "capacitor", "supercapacitor", "supercapacitor", "cell")
    volts = _cell_volts(d) if kind == "cell" else _bank_volts(d)
    off, connect, full = volts["off"], volts["connect"], volts["full"]
    fill_s = d.log(600.0, 60_000.0)
    harvest_a = d.log(3e-6, 3e-3)
    held_c = harvest_a * fill_s  # between cut-off and full
    mean_a = harvest_a * lit_s / period_s
    charger = _charger(d, fortune, volts, harvest_a)
    panels = _panels(d, fortune, light, charger, full, harvest_a)
    load, largest_a = _load(d, fortune, volts, held_c, mean_a, period_s)
    store = _store(d, fortune, kind, volts, held_c, harvest_a, largest_a)
    margins = {
        "design_margin": d.one(None, 1.3, 1.05),
        "start_within_h": fortune(2000.0, d.log(1.0, 1000.0)),
        "closure_days": 0.0 if d.chance(fortune(80, 50)) else d.log(0.05, 10.0),
        "served_share": d.one(0.99, 0.5, 1.0),
        "full_sun_lx": d.one(100_000.0, 10_000.0, 0.0),
    }
    spare_j = d.between(0.01, 0.7) * held_c * connect
    load["reserve_J"] = 0.0 if d.chance(fortune(85, 60)) else _neat(spare_j)
    load["connect_V"], load["disconnect_V"] = connect, off
    return {
        "light": light, "panels": panels, "charger": charger, "store": store, "load": load,
        "margins": margins,
    }, log


# ---- light ---------------------------------------------------------------------------------


def _light(d, fortune):
    """The section, a log or None, seconds with light in a period, and the period."""
    light = {
        "illuminance_lx": d.log(50.0, 5000.0),
        "source": d.one(*SOURCES),
        "daylight_share": d.one(0.0, 0.0, 0.3),
        "orientation_factor": d.one(1.0, 0.5),
        "soiling_factor": d.one(1.0, 0.9),
        "known_by": d.one("meter_at_panel", "phone_or_lamp_data", "guess"),
        "ambient_C": d.one(22.0, 25.0, 5.0, 40.0, fortune(15.0, -15.0), fortune(30.0, 55.0)),
    }
    kind = d.one("week", "week", "steady", "log")
    if kind == "steady":
        light["pattern"] = {"kind": "steady"}
        return light, None, 604_800.0, 604_800.0
    if kind == "log":
        found = _log(d)
        light["pattern"] = {"kind": "log", "file": "drawn.csv"}
        if d.chance(50):
            light["illuminance_lx"] = None
        return light, found, max(found.duration_s - found.dark_s, 60.0), found.duration_s
    blocks, lit_s = [], 0.0
    for _ in range(d.whole(1, 3)):
        begin = d.whole(0, 22)
        end = min(begin + d.one(1, 2, 4.5, 9, 12), 24)
        days = d.one(DAYS, DAYS[:5], DAYS[2:4], ("sat",), ("mon", "thu"))
        blocks.append(
            {"days": days, "from_h": begin, "to_h": end,
             "relative_level": d.one(1.0, 1.0, 0.3, 2.0, 0.0),
             "daylight_share": d.one(None, None, 1.0)}
        )
        lit_s += len(days) * (end - begin) * 3600.0
    light["pattern"] = {
        "kind": "week", "blocks": tuple(blocks), "dark_days": d.one((), (), ("sun",), ("tue",)),
    }
    return light, None, lit_s, 604_800.0


def _log(d):
    step_s = d.one(60.0, 300.0, 900.0, 3600.0)
    count = d.whole(2, 40)
    lux = [0.0 if d.chance(40) else d.log(20.0, 5000.0) for _ in range(count)]
    if not any(lux):
        lux[0] = 500.0
    # Readings that hold for a while: a log of minutes with a night in it.
    spans = [step_s * d.one(1, 1, 3, 12, 40) for _ in range(count)]
    if d.chance(40):
        spans[-1] += -sum(spans) % 86_400.0
    begin = None
    if d.chance(50):
        begin = datetime(2024, 3, 4) + timedelta(hours=d.whole(0, 167))
    return LightLog(
        time_s=np.concatenate([[0.0], np.cumsum(spans)]), illuminance_lx=np.array(lux),
        start=begin, step_s=step_s,
    )


# ---- supply --------------------------------------------------------------------------------


def _charger(d, fortune, volts, harvest_a):
    full, room = volts["full"], volts["full"] - volts["off"]
    shared = {
        "full_V": full,
        "full_hysteresis_V": _neat(min(d.log(fortune(0.05, 0.003), 0.6), 0.9 * room)),
        "quiescent_A": 0.0 if d.chance(20) else _neat(harvest_a * d.log(1e-3, 0.2)),
    }
    if d.chance(40):
        return {
            "kind": "direct", "diode_saturation_A": d.log(1e-10, 2e-7),
            "diode_ideality": d.between(1.0, 1.3), **shared,
        }
    watt = harvest_a * full
    cold = d.chance(70)
    return {
        "kind": "converter",
        "tracking": d.one("fraction", "maximum_power"),
        "voc_fraction": d.between(0.6, 0.9),
        "efficiency": d.between(0.6, 0.95),
        "fixed_loss_W": _neat(watt * d.log(1e-3, 0.3)),
        "loss_resistance_ohm": 0.0 if d.chance(20) else _neat(d.log(1e-3, 0.3) / harvest_a),
        "output_limit_A": max(_neat(harvest_a * d.log(0.8, fortune(3.0, 100.0))), 1e-6),
        "minimum_panel_V": d.one(0.1, fortune(0.1, 0.5)),
        "minimum_panel_W": _neat(watt * d.log(1e-3, 0.3)),
        "cold_start_below_V": d.between(0.3, 2.2) if cold else 0.0,
        "cold_start_efficiency": d.log(0.05, 0.9),
        "cold_start_panel_V": d.one(0.1, 0.4),
        "cold_start_panel_W": _neat(watt * d.log(1e-3, 0.1)),
        **shared,
    }


SHEETS = (
    ({"illuminance_lx": 200.0, "source": "fluorescent_4000", "short_circuit_A": 2e-5,
      "open_circuit_V": 4.9, "max_power_A": 1.6e-5, "max_power_V": 3.9},),
    ({"illuminance_lx": 200.0, "source": "led_4000", "short_circuit_A": 5e-5,
      "open_circuit_V": 4.0, "max_power_A": 4e-5, "max_power_V": 3.1},
     {"illuminance_lx": 1000.0, "source": "led_4000", "short_circuit_A": 2.5e-4,
      "open_circuit_V": 4.6, "max_power_A": 2.1e-4, "max_power_V": 3.6}),
)  # fmt: skip


def _panels(d, fortune, light, charger, full, harvest_a):
    """An area that gives about the current asked for, and cells for about the voltage."""
    technology = d.one(*TECHNOLOGIES)
    if d.chance(8):
        return {
            "technology": "amorphous", "cells_in_series": 8, "count": d.whole(1, 8),
            "data_sheet": d.one(*SHEETS), "active_area_cm2": 10.0,
        }
    lux = light["illuminance_lx"] or 300.0
    density = lux * parts.photocurrent_per_lux(light["source"], technology)
    cell = parts.cell(technology)
    cell_v = cell.ideality * kt_over_q(25.0) * np.log(density / cell.saturation_current_a_per_m2)
    count, row = d.one(1, 1, 2, 5), d.one(1, 1, 1, 2)
    if charger["kind"] == "direct":
        cells = max(1, round(full * d.between(fortune(1.2, 0.9), 1.8) / cell_v / row))
        wanted_a = harvest_a
    else:
        cells = d.whole(1, 10)
        wanted_a = harvest_a * full / (0.6 * cell_v * cells * row * charger["efficiency"])
    area_m2 = 1.2 * wanted_a * cells / density / count
    return {
        "technology": technology, "count": count, "in_series": row,
        "cells_in_series": min(cells, 144),
        "active_area_cm2": float(np.clip(_neat(area_m2 * 1e4), 0.01, 20_000.0)),
    }


# ---- store ---------------------------------------------------------------------------------


def _bank_volts(d):
    off = d.between(0.8, 3.2)
    connect = _neat(off + d.log(0.2, 1.5))
    full = _neat(connect + d.log(0.05, 2.0))
    return {"off": off, "connect": connect, "full": full}


def _cell_volts(d):
    chemistry, cells = d.one("lithium_ion", "iron_phosphate", "titanate"), d.one(1, 1, 2)
    table = parts.chemistry(chemistry)
    low, high = table.minimum_v * cells, table.maximum_v * cells
    full = _neat(min(high, high - d.between(-0.05, 0.2) * cells))
    off = _neat(low + (full - low) * d.between(0.05, 0.6))
    connect = _neat(off + (full - off) * d.between(0.1, 0.9))
    return {"off": off, "connect": connect, "full": full, "chemistry": chemistry, "cells": cells}


def _store(d, fortune, kind, volts, held_c, harvest_a, largest_a):
    off, full = volts["off"], volts["full"]
    ohm = 0.0 if d.chance(10) else _neat(d.log(1e-3, 0.3) / max(largest_a, 1e-6))
    ohm = min(ohm, 900.0)
    leak_a = 0.0 if d.chance(10) else _neat(harvest_a * d.log(1e-4, 0.2))
    years = d.one(0.0, 0.0, 3.0, 10.0)
    if kind == "cell":
        capacity = float(np.clip(_neat(held_c / 3.6), 0.1, 1e5))
        return {
            "kind": "cell", "chemistry": volts["chemistry"], "cells_in_series": volts["cells"],
            "capacity_mAh": capacity, "resistance_ohm": ohm,
            "self_discharge_per_month": d.between(0.0, 0.5),
            "charge_limit_A": max(
                _neat(harvest_a * d.log(fortune(3.0, 0.3), fortune(1e4, 100.0))), 1e-6
            ),
            "discharge_limit_A": max(_neat(largest_a * d.log(fortune(2.0, 0.5), 30.0)), 1e-6),
            "charge_below_C": d.one(45.0, 60.0),
            "initial_charge": d.between(0.0, 1.0), "years_in_service": years,
            "cold_capacity_share": d.between(0.3, 1.0), "cold_resistance_factor": d.log(1.0, 8.0),
            "cycles_per_year": d.one(100.0, 0.0, 1000.0),
        }
    units = d.whole(1, 4)
    spare = d.between(fortune(1.6, 0.95), fortune(3.0, 1.6))
    rated = float(np.clip(_neat(full * spare / units), 0.5, 100.0))
    shared = {
        "capacitance_F": float(np.clip(_neat(held_c / (full - off)), 1e-5, 1000.0)),
        "units_in_series": units, "rated_V": rated, "esr_ohm": ohm, "leakage_A": leak_a,
        "tolerance": d.one(0.2, 0.0, 0.1), "years_in_service": years,
        "end_of_life_loss": d.one(0.2, 0.3), "life_per_tenth_volt": d.one(1.0, 1.3),
        "cold_esr_factor": d.log(1.0, 5.0),
        "initial_V": 0.0 if d.chance(60) else d.between(0.0, full),
    }
    if kind == "capacitor":
        return {"kind": "capacitor", **shared}
    hybrid = d.chance(25)
    return {
        "kind": "supercapacitor", **shared,
        "lowest_V": _neat(d.between(0.2, 0.8) * off / units) if hybrid else 0.0,
        "capacitance_slope": d.between(0.0, 0.6), "capacitance_bend": d.between(0.0, 0.6),
        "condition": d.one("settled", "first_days"),
        "fresh_leakage_factor": d.log(1.0, 10.0),
        "balancing": d.one("none", "resistors", "active", "active"),
        "balancing_A": _neat(harvest_a * d.log(1e-4, 0.1)),
    }


# ---- load ----------------------------------------------------------------------------------


def _load(d, fortune, volts, held_c, mean_a, period_s):
    """The section without its switch thresholds, and its largest current."""
    off = volts["off"]
    regulator = _regulator(d, off)
    count = d.one(1, 1, 1, 1, 1, 2, 2, 2, 0)
    operations, largest_a = [], 1e-6
    for _ in range(count):
        run_c = held_c * d.log(3e-3, fortune(0.3, 0.7))
        share = d.log(0.1, fortune(0.9, 4.0)) / count
        phases, used_a = _phases(d, run_c, off, regulator)
        largest_a = max(largest_a, used_a)
        length = sum(p["duration_s"] for p in phases)
        interval = run_c / max(mean_a * share, 1e-12)
        interval = _neat(float(np.clip(interval, period_s / d.log(20.0, MOST_RUNS), 8e6)))
        if d.chance(25):
            schedule = {
                "kind": "when_ready",
                "ready_V": _neat(off + (volts["full"] - off) * d.between(0.1, 1.0)),
                "wanted_per_day": float(np.clip(_neat(86_400.0 / interval), 0.001, 1e6)),
            }
        else:
            schedule = {"kind": "every", "interval_s": max(interval, _neat(1.1 * length + 0.01))}
            if d.chance(35) and period_s % 86_400.0 == 0.0:
                # Under a log of other lengths windows of the week would move along it.
                begin = d.whole(0, 20)
                schedule |= {
                    "days": d.one(DAYS, DAYS[:5], ("wed", "thu", "sun"))
                    if period_s == 604_800.0 else DAYS,
                    "from_h": begin,
                    "to_h": min(begin + d.one(1, 4, 10), 24),
                }
        operations.append({"name": "run", "schedule": schedule, "phases": tuple(phases)})
    start_up = []
    for _ in range(d.one(0, 1, 1, 2)):
        start_c = held_c * d.log(1e-3, fortune(0.05, 0.15))
        found, used_a = _phases(d, start_c, off, regulator, most=1)
        start_up += found
        largest_a = max(largest_a, used_a)
    return {
        "minimum_V": _neat(max(off + d.between(-0.6, fortune(0.0, 0.1)), 0.0)),
        "retry_delay_s": d.log(3.0, 10_000.0),
        "regulator": regulator,
        "bulk_capacitance_F": 0.0 if d.chance(20) else _neat(
            min(held_c / volts["full"] * d.log(1e-3, 0.2), 10.0)
        ),
        "sleep_A": _neat(mean_a * d.log(1e-3, fortune(0.2, 0.5))),
        "start_up": tuple(start_up),
        "operations": tuple(operations),
    }, largest_a


def _regulator(d, off):
    kind = d.one("none", "none", "linear", "switching")
    return {
        "kind": kind, "output_V": _neat(max(off * d.between(0.5, 0.95), 0.3)),
        "dropout_V": d.between(0.02, 0.3), "ground_A": d.log(1e-8, 3e-6),
        "efficiency": d.between(0.6, 0.95), "minimum_input_V": _neat(off * d.between(0.3, 1.02)),
    }


def _phases(d, run_c, off, regulator, most=3):
    """Phases that take about a charge altogether, and the largest current at the store."""
    out, largest_a = [], 0.0
    count = d.whole(1, most)
    for _ in range(count):
        duration = d.log(0.02, 300.0)
        amps = min(run_c / count / duration, 50.0)
        largest_a = max(largest_a, amps)
        at_v = off if regulator["kind"] == "none" else regulator["output_V"]
        if regulator["kind"] == "switching":
            amps *= off / at_v
        kind = d.one("current_A", "power_W", "resistance_ohm")
        amount = {
            "current_A": amps, "power_W": amps * at_v,
            "resistance_ohm": float(np.clip(at_v / max(amps, 1e-9), 1e-3, 1e9)),
        }[kind]
        out.append({kind: _neat(amount), "duration_s": duration})
    return out, largest_a
