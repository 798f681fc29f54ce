"""What people see on a bench, each beside a sum by hand: common practice, no source.

Two 10 F units take about an hour near a window and a quarter of it in four times the light, and
serve some twenty operations of a lock; millifarads fill in minutes at 1300 lx; a motor that bursts
on 3.3 mF comes again in tens of seconds. The lock and the motor are our own description. Panels by
the figures of modules on sale and by the lux in a watt of daylight, both from memory; nothing of
the engine is used for the sums, which may be off by what they leave out.
"""

import pytest

from explorer.advice.answers import answers
from explorer.advice.case import Case
from explorer.advice.elsewhere import elsewhere
from explorer.scenario.model import Scenario

NEAR_WINDOW_LX = 1300.0
"""Of a bright workplace near a window (common practice, no source)."""
LOSSLESS = {"esr_ohm": 0.0, "leakage_A": 0.0}


def burst(name, amps, seconds, wanted_per_day):
    return {
        "name": name, "schedule": {"kind": "until_empty", "wanted_per_day": wanted_per_day},
        "phases": ({"current_A": amps, "duration_s": seconds},),
    }  # fmt: skip


def lock():
    """Two 10 F units in series, 5 V to 3 V; a bolt that takes 0.8 A for 0.6 s.

    The board's own start-up capacitor spares the bank the cold start.
    """
    return Scenario.model_validate({
        "light": {
            "illuminance_lx": NEAR_WINDOW_LX, "source": "daylight_glass",
            "elsewhere": (
                {"name": "Near the window", "illuminance_lx": NEAR_WINDOW_LX},
                {"name": "Four times the light", "illuminance_lx": 4.0 * NEAR_WINDOW_LX},
            ),
        },
        "panels": {"technology": "crystalline", "active_area_cm2": 300.0, "cells_in_series": 10},
        "charger": {"kind": "converter", "cold_start_below_V": 0.0, "full_V": 5.0,
                    "tracking": "maximum_power"},
        "store": {
            "kind": "supercapacitor", "capacitance_F": 5.0, "units_in_series": 2, "esr_ohm": 0.06,
            "leakage_A": 1e-5, "rated_V": 2.7,
        },
        "load": {
            "connect_V": 4.0, "disconnect_V": 3.0, "minimum_V": 2.8, "sleep_A": 5e-6,
            "actuator": "door_lock", "start_up": (),
            "operations": ({
                "name": "open", "schedule": {"kind": "every", "interval_s": 1800.0},
                "phases": ({"current_A": 0.8, "duration_s": 0.6},),
            },),
        },
    })  # fmt: skip


def test_two_ten_farad_units_take_about_an_hour_near_a_window():
    """62.5 J; 1300 lx are 11.8 W/m² at 110 lm/W. A module that gives 15 % in full sun gives 7 % in
    a hundredth of it: 25 mW from 300 cm², of which the converter passes on 80 %."""
    by_hand = 0.5 * 5.0 * 5.0**2 / (0.8 * 0.07 * NEAR_WINDOW_LX / 110.0 * 300e-4)
    window, bright = elsewhere(Case(lock()))
    assert by_hand == pytest.approx(3600.0, rel=0.2)
    assert window.full_s == pytest.approx(by_hand, rel=0.3)
    assert window.full_s == pytest.approx(3600.0, rel=0.35)
    assert bright.full_s == pytest.approx(0.25 * window.full_s, rel=0.2)


def test_they_serve_about_twenty_operations_of_a_lock():
    """5 F from 5 to 3 V are 10 C, and a run takes 0.48 C: 20.8; resistance and sleep take some."""
    runs = answers(Case(lock()))["operations_per_charge"]
    assert pytest.approx(20.8, abs=0.05) == 10.0 / 0.48
    assert 17.0 <= runs <= 21.0


def small(**load):
    """3.3 mF and 25 cm² of amorphous silicon at 1300 lx of a fluorescent lamp."""
    return Scenario.model_validate({
        "light": {"illuminance_lx": NEAR_WINDOW_LX, "source": "fluorescent_4000",
                  "pattern": {"kind": "steady"}},
        "panels": {"technology": "amorphous", "active_area_cm2": 25.0, "cells_in_series": 8},
        "store": {"kind": "capacitor", "capacitance_F": 3.3e-3, "rated_V": 6.3, **LOSSLESS},
        "load": {"start_up": (), "bulk_capacitance_F": 0.0, "sleep_A": 0.0, **load},
    })  # fmt: skip


PANEL_W = 25.0 * 28.2e-6 * (NEAR_WINDOW_LX / 1000.0) ** 1.075
"""A usual module gives 5.0 µW/cm² at 200 lx and 28.2 at 1000 lx of a fluorescent lamp."""


def test_millifarads_fill_in_minutes():
    """Up to 1.8 V by the cold start at 5 %, then 80 % less 2 µW up to 5 V."""
    cold = 0.5 * 3.3e-3 * 1.8**2 / (0.05 * PANEL_W)
    warm = 0.5 * 3.3e-3 * (5.0**2 - 1.8**2) / (0.8 * PANEL_W - 2e-6)
    found = answers(Case(small()))["full_charge_s"]
    assert 60.0 < found < 1200.0
    assert found == pytest.approx(cold + warm, rel=0.2)


def test_a_burst_motor_comes_again_in_tens_of_seconds():
    """From 2.5 to 4.5 V are 23.1 mJ; 50 mA take 6.6 mC in 132 ms."""
    motor = small(
        connect_V=4.5, disconnect_V=2.5, minimum_V=2.0, retry_delay_s=0.1,
        operations=(burst("burst", 0.05, 0.05, 100.0),),
    )
    found = answers(Case(motor))
    by_hand = 0.5 * 3.3e-3 * (4.5**2 - 2.5**2) / (0.8 * PANEL_W - 2e-6)
    assert 10.0 < found["run_period_s"] < 100.0
    assert found["run_period_s"] == pytest.approx(by_hand, rel=0.15)
    assert found["run_length_s"] == pytest.approx(3.3e-3 * 2.0 / 0.05, rel=0.03)
