"""Operations of many phases: composed in blocks, at the cost of their different draws."""

import numpy as np
import pytest

from explorer.engine import legs, passes
from explorer.engine.course import Standing
from explorer.engine.march import Engine
from explorer.engine.pulses import lowest_begins
from explorer.engine.system import Operation, Periodic, Phase
from explorer.engine.trace import Trace
from explorer.physics.load import Draw
from tests.engine.systems import (
    ALWAYS,
    AMORPHOUS,
    SCHOTTKY,
    bank,
    levels,
    load,
    pulse,
    steady,
    system,
)

LENGTH_S, MEAN_A = 2.0, 8e-3


def captured(count, interval_s=300.0):
    """Many short phases of four currents, as a captured load has them."""
    amps = np.array([0.3, 0.9, 1.5, 1.2])[np.arange(count) * 7 % 4]
    amps = amps * MEAN_A / amps.mean()
    seconds = np.array([0.5, 1.0, 1.5])[np.arange(count) % 3]
    seconds = seconds * LENGTH_S / seconds.sum()
    phases = [
        Phase(draw=Draw(current_a=float(a)), duration_s=float(s))
        for a, s in zip(amps, seconds, strict=True)
    ]
    schedule = Periodic(interval_s=interval_s, windows_s=ALWAYS)
    return Operation(name="captured", schedule=schedule, phases=tuple(phases))


def device(*operations, farads=1.0, **changes):
    return system(**{
        "light": levels([(0.0, 2e-4), (20_000.0, 0.0), (50_000.0, 2e-4)], 86_400.0),
        "panel": AMORPHOUS, "charger": SCHOTTKY, "quiescent_a": 1e-6,
        "store": bank(farads, esr_ohm=2.0, leakage_a=1e-6),
        "load": load(off_v=2.4, sleep=Draw(current_a=2e-5), operations=operations),
        **changes,
    })


def marched(given, start_v, span_s=86_400.0):
    engine = Engine(given)
    start = Standing(charge_c=float(given.store.charge_at(start_v)), connected=True)
    return engine, engine.march(span_s, start)


@pytest.fixture
def one_by_one(monkeypatch):
    """The same march, phase after phase."""

    def march(*args, **more):
        with monkeypatch.context() as patch:
            patch.setattr(legs, "MANY", 10**9)
            patch.setattr(passes, "SEVERAL", 10**9)
            return marched(*args, **more)

    return march


@pytest.mark.parametrize("start_v", [4.99, 2.45, 3.7])
@pytest.mark.parametrize(
    "given",
    [
        device(captured(150)),
        device(captured(150), farads=0.05),
        device(captured(150), pulse(0.004, 3.0, 900.0)),
        device(pulse(0.004, 3.0, 900.0), captured(150)),
    ],
    ids=["1 F", "0.05 F", "beside a longer one", "beside a longer one that comes first"],
)
def test_blocks_of_phases_are_what_phase_after_phase_is(given, start_v, one_by_one):
    _, one = marched(given, start_v)
    engine, two = one_by_one(given, start_v)
    assert one.tally.served == two.tally.served
    assert one.tally.cut_offs == two.tally.cut_offs
    assert one.end.charge_c == pytest.approx(two.end.charge_c, rel=1e-6)
    # Turns at full may be passed over from one turn earlier or later.
    ends = [[e.time_s for e in run.events if e.kind != "full"] for run in (one, two)]
    assert ends[0] == pytest.approx(ends[1], rel=1e-6, abs=1e-3)
    found = [Trace(engine, run).extremes() for run in (one, two)]
    assert found[0].lowest_terminal_v == pytest.approx(found[1].lowest_terminal_v, abs=1e-5)
    assert found[0].lowest_store_v == pytest.approx(found[1].lowest_store_v, abs=1e-5)
    begins = [lowest_begins(engine, run) for run in (one, two)]
    assert begins[0] == pytest.approx(begins[1], abs=1e-3)
    assert len(one.legs) < len(two.legs) / 2


def test_a_moment_within_a_block_is_the_moment_of_its_phase(one_by_one):
    engine, one = marched(device(captured(150)), 4.0, span_s=4000.0)
    walker, two = one_by_one(device(captured(150)), 4.0, span_s=4000.0)
    moments = 1200.0 + np.linspace(-0.5, LENGTH_S + 0.5, 301)
    a, b = Trace(engine, one).at(moments), Trace(walker, two).at(moments)
    assert np.allclose(a.store_v, b.store_v, atol=1e-6)
    # A change of phase may fall on either side of a rounding.
    assert np.mean(np.abs(a.terminal_v - b.terminal_v) > 1e-5) < 0.05
    shown = Trace(engine, one).picture(1199.0, 1203.0, 400)
    exact = Trace(walker, two).picture(1199.0, 1203.0, 400)
    assert np.allclose(shown.terminal_low_v, exact.terminal_low_v, atol=2e-5)
    assert np.allclose(shown.low_v, exact.low_v, atol=2e-5)


def test_tables_grow_with_the_different_draws_and_legs_with_a_root():
    made, lengths = [], []
    for count in (100, 1600):
        engine, run = marched(device(captured(count)), 4.99)
        made.append({kind: engine.library.made[kind] for kind in ("currents", "motion")})
        lengths.append(len(run.legs))
    assert made[0] == made[1]
    assert lengths[1] < 5 * lengths[0]


def test_a_run_that_is_cut_off_ends_in_the_phase_that_cuts_it_off(one_by_one):
    given = device(captured(150), light=steady(0.0))
    _, one = marched(given, 2.43)
    _, two = one_by_one(given, 2.43)
    assert one.tally.cut_offs == two.tally.cut_offs == 1
    assert one.events[0].time_s == pytest.approx(two.events[0].time_s, abs=1e-6)
