"""The six demonstrations against sums on the back of an envelope.

Light to panel by the figures of modules on sale (`test_modules_on_sale.py`, from memory), panel to
store by the charger's own numbers, device by charge per run. Nothing of the engine is used: C·ΔV
with one capacitance, mean currents, mean voltages. Each figure may be off by what such a sum leaves
out, so 8 % are allowed, 12 % for the time to start.
"""

import numpy as np
import pytest

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.files.logs import resolve_log
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder

DAY_S, HOUR_S, WEEK_H = 86_400.0, 3600.0, 168.0


def usual_module(lamp_200, lamp_1000, lux):
    """Output at a level between or near two known ones, a power of the light. [µW/cm²]"""
    return lamp_200 * (lux / 200.0) ** (np.log(lamp_1000 / lamp_200) / np.log(5.0))


def soil_probe():
    # 42 cm² under an LED lamp, which gives 1.04 of what the fluorescent lamp of sheets gives
    panel = 42e-6 * usual_module(5.0, 28.2, 400.0)
    brought = (0.85 * panel - 1e-6) * 50.0 / WEEK_H
    run_a = (4e-3 * 0.1 + 30e-3 * 0.06 + 11e-3 * 0.05) / 300.0
    at_cut_off = 3e-6 + 0.45e-6 + run_a + 2.7e-6 * 2.4 / 5.4
    on_the_way = 3e-6 + 0.45e-6 + run_a + 2.7e-6 * 3.7 / 5.4
    cold = 0.5 * 1.5 * 0.87 * 1.8**2 / (0.08 * panel)  # capacitance is lower there, see model note
    warm = 0.5 * 1.5 * (3.6**2 - 1.8**2) / (0.85 * panel - 1e-6)
    nights = 2 * 14.0 * HOUR_S  # 22 of its hours are lit, ten a day
    return (
        brought, 2.4 * at_cut_off, 1.5 * 1.02 * (4.96 - 2.4) / on_the_way, cold + warm + nights,
    )  # fmt: skip


def plant_label():
    # 720 lx of daylight on eight cells of 2.5 cm²: 0.061 µA/cm² per lx, less a photo-shunt of
    # 0.2/V at the 0.34 V a cell that store and diode leave it
    charge = 720.0 * 0.061e-6 * 2.5 * (1.0 - 0.2 * 0.34)
    run_a = 9e-3 * 0.25 / 1800.0 + 6e-3 * 2.5 / 21_600.0
    at_cut_off = 1.5e-6 + 0.15e-6 + run_a + 1.7e-6 * 2.5 / 5.4
    on_the_way = 1.5e-6 + 0.15e-6 + run_a + 1.7e-6 * 3.8 / 5.4 + 0.072e-6
    return (
        2.5 * charge * 9.0 / 24.0, 2.5 * at_cut_off,
        0.47 * 1.02 * (4.95 - 2.5) / on_the_way, 0.47 * 0.91 * 3.4 / charge,
    )  # fmt: skip


def seminar_room_co2():
    # 44 806 lx·h of the log in 379 h; 180 cm², 12.3 µW/cm² at its usual 450 lx of mixed light
    per_lux = 180e-6 * 12.3 / 450.0
    brought = 0.88 * per_lux * 44_806.0 / 379.0
    run_w = (0.05 * 5.0 + 12e-3 * 2.8 * 0.1) / 0.9 / 900.0
    taken = run_w + 3e-6 * 2.8 / 0.9 + 3.1 * (0.8e-6 + 0.6e-6 + 0.02 * 0.12 / 730.5)
    # 110 of 120 mAh at 3.75 V
    return brought, taken, 0.110 * 3600.0 * 3.75 / taken, None


def vent_flap():
    # 3000 lx under an LED lamp on ten cells of 4.8 cm²: 0.057 µA/cm² per lx, 0.525 V a cell
    charge = 3000.0 * 0.057e-6 * 4.8 * (1.0 - 0.2 * 0.525)
    run_c = 5.0 / 22.0 * 0.97 * 0.08 + 0.06 * 0.4
    taken = 5.0 * (100e-6 * 5.0 / 6.3 + 1.2e-6 + 200.0 * run_c / DAY_S)
    return 5.0 * charge, taken, None, 0.033 * 4.2 / charge


def watering_valve():
    # 48 cm² of crystalline cells behind glass, 2125 lx: 50 µW/cm² at 1000 lx and 176 at 3000 lx
    # by the model's response of daylight, less 0.8 % a kelvin over 25 °C
    panel = 48e-6 * 50.0 * 2.125 ** (np.log(176.0 / 50.0) / np.log(3.0)) * 0.976
    brought = (0.82 * panel - 4e-6) * 11.0 / 24.0
    run_a = 14.0 * (0.35 * 0.12 + 20e-6 * 120.0) / DAY_S + 9e-3 * 6e-3 / 30.0
    at_cut_off = 7e-6 + run_a + 16e-6 * 5.0 / 8.1
    on_the_way = 7e-6 + run_a + 16e-6 * 6.4 / 8.1
    last_v = np.sqrt(5.0**2 + 2.0 * 1.2 / 3.3)  # where 1.2 J are left above the cut-off
    cold = 0.5 * 3.3 * 0.85 * 1.6**2 / (0.05 * panel)
    warm = 0.5 * 3.3 * (6.5**2 - 1.6**2) / (0.82 * panel - 4e-6)
    return (
        brought, 5.0 * at_cut_off, 3.3 * 1.04 * (7.74 - last_v) / on_the_way, cold + warm,
    )  # fmt: skip


def door_counter():
    # 36 cm² at 36 lx of a fluorescent lamp, held at 0.97 of its best
    panel = 36e-6 * usual_module(4.8, 27.0, 36.0)
    brought = (0.8 * 0.97 * panel - 0.8e-6) * 54.0 / WEEK_H
    taken = 2.2 * (3e-6 + 0.5e-6 + 1e-6 * 2.2 / 5.5 + 12e-3 * 0.02 / 60.0 * 54.0 / WEEK_H)
    return brought, taken, None, np.inf


@pytest.mark.parametrize(
    "by_hand",
    [soil_probe, plant_label, seminar_room_co2, vent_flap, watering_valve, door_counter],
    ids=lambda sums: sums.__name__,
)
def test_a_demonstration_is_what_a_sum_on_an_envelope_says(by_hand):
    path = scenario_folder() / f"{by_hand.__name__}.json"
    scenario = load_scenario(path).scenario
    found = assess(Case(scenario, resolve_log(scenario, path)))
    check = {c.name: c for c in found.verdict.checks}
    brought_w, taken_w, dark_s, start_s = by_hand()
    assert check["balance"].value == pytest.approx(brought_w, rel=0.08)
    assert check["balance"].limit == pytest.approx(taken_w, rel=0.08)
    if dark_s is not None:
        assert check["dark"].value == pytest.approx(dark_s, rel=0.08)
    if start_s is not None:
        assert check["starts"].value == pytest.approx(start_s, rel=0.12)
