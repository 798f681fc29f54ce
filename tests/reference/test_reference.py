"""The reference itself: closed forms, another solver, and its own books."""

import ast
from math import exp, inf
from pathlib import Path

import pytest
from scipy.integrate import solve_ivp

from explorer.scenario.model import Scenario
from tests.reference import nearby
from tests.reference.circuit import alone
from tests.reference.device import Device
from tests.reference.march import March
from tests.reference.motion import mean_along, pieces
from tests.reference.off import Off
from tests.reference.strategy import numbered


def bare(**load):
    """A capacitor of 1 mF that begins at 3 V, without losses, and a device that only sleeps."""
    return Device(Scenario.model_validate({
        "charger": {"kind": "direct", "quiescent_A": 0.0},
        "store": {"kind": "capacitor", "capacitance_F": 1e-3, "esr_ohm": 0.0, "leakage_A": 0.0,
                  "initial_V": 3.0},
        "load": {"connect_V": 2.9, "disconnect_V": 1.0, "minimum_V": 1.0, "start_up": (),
                 "bulk_capacitance_F": 0.0, "sleep_A": 0.0, "operations": (), **load},
    }))  # fmt: skip


def in_the_dark(device):
    march = March(device, device.first_y, dark=True)
    march.charging = False  # the blocking diode leaks nothing
    march.resume_y = -inf
    return march


def every(interval_s, **phase):
    return {"schedule": {"kind": "every", "interval_s": interval_s}, "phases": (phase,)}


def test_pulses_of_current_take_their_charge():
    device = bare(sleep_A=2e-6, operations=(every(10.0, current_A=1e-3, duration_s=0.1),))
    march = in_the_dark(device)
    assert march.to(95.0)
    assert march.totals.served == [10]
    assert march.y == pytest.approx(3.0 - (95.0 * 2e-6 + 10 * 1e-4) / 1e-3, abs=1e-12)
    assert march.totals.load_c == pytest.approx(95.0 * 2e-6 + 10 * 1e-4, rel=1e-12)


def test_a_resistor_discharges_exponentially():
    device = bare(operations=(every(1000.0, resistance_ohm=1e4, duration_s=8.0),))
    march = in_the_dark(device)
    assert march.to(8.0)
    assert march.y == pytest.approx(3.0 * exp(-0.8), abs=1e-7)


def test_a_constant_power_takes_its_energy():
    device = bare(operations=(every(1000.0, power_W=1e-3, duration_s=2.0),))
    march = in_the_dark(device)
    assert march.to(2.0)
    assert 0.5e-3 * (9.0 - march.y**2) == pytest.approx(2e-3, rel=1e-7)


def test_a_connect_fills_the_bulk_capacitance():
    march = in_the_dark(bare(bulk_capacitance_F=1e-4))
    assert march.to(1.0)
    assert march.y == pytest.approx(2.7, abs=1e-12)
    assert march.totals.inrush_c == pytest.approx(3e-4, rel=1e-12)


def test_a_cut_off_waits_for_the_retry_delay():
    """10 mA for a second empties 1 mF below 1 V; nothing may connect for a minute after."""
    device = bare(retry_delay_s=60.0, operations=(every(10.0, current_A=0.01, duration_s=1.0),))
    march = in_the_dark(device)
    assert march.to(30.0)
    assert [kind for _, kind in march.events] == ["connect", "cut_off"]
    assert march.events[1][0] == pytest.approx(0.2, abs=1e-9)
    assert march.retry_at == pytest.approx(60.2)
    assert march.totals.served == [0]


def test_the_mean_on_an_exponential_path():
    """y = 1 - e^-t from 0 to 2; the means of y and y² in closed form."""
    y1 = 1.0 - exp(-2.0)
    assert mean_along(0.0, y1 / 2, y1, 1.0, exp(-2.0)) == pytest.approx(1.0 - y1 / 2.0)
    square = 1.0 - y1 + (1.0 - exp(-4.0)) / 4.0
    assert mean_along(0.0, y1**2 / 4, y1**2, 1.0, exp(-2.0)) == pytest.approx(square)


def test_a_stiff_fall_costs_a_few_steps():
    """Ten million time constants."""
    steps = list(pieces(lambda y: -1e6 * (y - 2.0), 3.0, 10.0, None))
    assert len(steps) < 12
    assert steps[-1][1] == pytest.approx(2.0)


def test_a_terminal_voltage_satisfies_its_own_equation():
    v, ohm, draw = 3.0, 2.0, (0.01, 0.5, 0.02)
    vt, _, amps = alone(v, draw, ohm)
    assert v - ohm * amps == pytest.approx(vt, abs=1e-14)
    assert alone(1.9, (0.0, 0.5, 0.0), ohm)[0] is None  # beyond v²/4R


def test_the_engine_is_not_used():
    for path in Path(__file__).parent.glob("*.py"):
        if path.name in ("device.py", "circuit.py", "motion.py", "march.py", "habit.py", "sky.py",
                         "year.py"):
            names = [
                getattr(node, "module", None) or node.names[0].name
                for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
                if isinstance(node, ast.Import | ast.ImportFrom)
            ]
            assert not [n for n in names if "engine" in n or "advice" in n or "build" in n]


def brightest(device):
    return max(device.steps, key=lambda step: step[2])


@pytest.mark.parametrize("number", range(25))
def test_another_solver_finds_the_same_motion(number):
    """The brightest stretch, against scipy's LSODA with tight tolerances."""
    device = Device(*numbered(number))
    begin, _, amps = brightest(device)
    march = March(device, device.store.state(0.8 * device.full_v), begin_s=begin, loaded=False)
    draw = (device.quiescent_a, 0.0, 0.0)
    rate, seconds = march._rate(amps, draw), 600.0
    y = list(pieces(rate, march.y, seconds, None))[-1][1]
    got = solve_ivp(lambda _, x: [rate(x[0])], (0.0, seconds), [march.y], method="LSODA",
                    rtol=1e-9, atol=1e-11)  # fmt: skip
    assert device.store.volts(y) == pytest.approx(device.store.volts(got.y[0, -1]), abs=1e-6)


@pytest.mark.parametrize("number", range(15))
def test_the_books_close_and_the_harvest_is_what_the_charger_gives(number):
    """Charge balance of a whole run, and the harvest summed finely from the circuit alone."""
    device = Device(*numbered(number))
    begin, end, amps = brightest(device)
    span = min(end - begin, 2000.0)
    march = March(device, device.store.state(0.7 * device.off_v), begin_s=begin, loaded=False)
    draw, total, n = (device.quiescent_a, 0.0, 0.0), 0.0, 400
    for k in range(n):
        march.to(begin + (k + 0.5) * span / n)
        total += march.terminals(march.y, amps, draw)[1] * span / n if march.charging else 0.0
    if march.events:
        return  # it went full: the sum has a corner
    march.to(begin + span)
    assert march.totals.harvest_c == pytest.approx(total, rel=2e-4, abs=1e-12)


def test_all_numbers_must_be_right_under_one_nudge():
    """What no nudge explains stays wrong as given; what one explains is said to be nudged."""

    def wrong_but_under(**nudges):
        return lambda nudge: {
            name: Off(name, 0.5 if nudge == right else 2.0, 1.0, 2.0)
            for name, right in nudges.items()
        }

    given, one, other = nearby.GIVEN, *nearby.NUDGES[:2]
    assert nearby.nearest(wrong_but_under(a=given, b=given)).how == "as given"
    assert nearby.nearest(wrong_but_under(a=one, b=one)).how == "nudged"
    assert nearby.nearest(wrong_but_under(a=one, b=other)).wrong.keys() == {"a", "b"}
