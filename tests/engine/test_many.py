"""Many systems at once: the batch moves as the one-by-one engine moves."""

from dataclasses import replace

import numpy as np
import pytest

from explorer.engine import many_run as run
from explorer.engine.course import Standing, StopAt
from explorer.engine.flows import Flow
from explorer.engine.many import prepare, stretches_of
from explorer.engine.march import Engine
from explorer.engine.row_flows import RowFlows
from explorer.engine.system import DAY_S, WEEK_S
from tests.engine import systems


def random_motions(seed, rows=40, nodes=24):
    """Speeds that rise, fall, stop and jump, on nodes of which some are twins."""
    random = np.random.default_rng(seed)
    x = np.sort(random.uniform(0.0, 10.0, (rows, nodes)), axis=1)
    x[:, 0] = 0.0
    x[:, 8] = x[:, 7]
    speed = random.normal(0.0, 1.0, (rows, nodes)) + random.choice([-1.5, 0.0, 1.5], (rows, 1))
    speed[:, 0] = np.maximum(speed[:, 0], 0.0)
    speed[: rows // 4] = np.abs(speed[: rows // 4]) + 0.01
    speed[rows // 4 : rows // 2] *= 1e-9
    speed[0, 5] = 0.0
    return x, speed


@pytest.mark.parametrize("seed", range(4))
def test_every_row_moves_as_its_own_flow(seed):
    x, speed = random_motions(seed)
    many = RowFlows(x, [speed, -speed])
    random = np.random.default_rng(seed + 100)
    for motion, signed in enumerate((speed, -speed)):
        for duration in (1e-3, 0.4, 30.0, 1e12):
            rows = np.arange(len(x))
            start = random.uniform(0.0, x[:, -1])
            moved = many.advance(
                np.full(len(x), motion), rows, start, np.full(len(x), duration)
            )
            alone = [
                Flow(n, s).advance(a, duration) for n, s, a in zip(x, signed, start, strict=True)
            ]
            np.testing.assert_allclose(moved, alone, rtol=1e-9, atol=1e-9)


@pytest.mark.parametrize("seed", range(4))
def test_every_row_reaches_a_place_when_its_own_flow_does(seed):
    x, speed = random_motions(seed)
    many = RowFlows(x, [speed])
    random = np.random.default_rng(seed + 7)
    rows, which = np.arange(len(x)), np.zeros(len(x), np.intp)
    reached = 0
    for _ in range(6):
        start, target = random.uniform(0.0, x[:, -1]), random.uniform(0.0, x[:, -1])
        times = many.time_to(which, rows, start, target)
        alone = np.array([
            Flow(n, s).time_to(a, b) for n, s, a, b in zip(x, speed, start, target, strict=True)
        ])
        np.testing.assert_allclose(times, alone, rtol=1e-7, atol=1e-12)
        reached += int(np.isfinite(alone).sum())
    assert reached > 20


def test_a_place_where_the_speed_jumps_is_passed_or_held_as_in_a_single_flow():
    nodes = np.array([[0.0, 1.0, 1.0, 2.0]])
    for below, above in ((1.0, 0.5), (1.0, -0.5), (-1.0, -0.5), (-1.0, 0.5)):
        speed = np.array([[max(below, 0.0), below, above, above]])
        many, alone = RowFlows(nodes, [speed]), Flow(nodes[0], speed[0])
        for start in (0.3, 1.0, 1.7):
            moved = many.advance(np.zeros(1, int), np.zeros(1, int), np.array([start]),
                                 np.array([5.0]))
            assert moved[0] == pytest.approx(alone.advance(start, 5.0), abs=1e-12)


def test_a_place_is_never_reached_beyond_the_end_of_time():
    nodes, speed = np.array([[0.0, 1.0, 2.0]]), np.array([[1.0, 0.0, -1.0]])
    many, zero = RowFlows(nodes, [speed]), np.zeros(1, int)
    assert many.time_to(zero, zero, np.array([0.5]), np.array([1.5]))[0] == np.inf
    assert many.time_to(zero, zero, np.array([0.5]), np.array([np.inf]))[0] == np.inf
    assert many.time_to(zero, zero, np.array([0.5]), np.array([0.5]))[0] == 0.0


# ---- stretches -----------------------------------------------------------------------------


def test_a_period_is_split_where_light_or_windows_change():
    made = systems.system(
        light=systems.levels([(0.0, 0.0), (9 * 3600.0, 1e-3), (17 * 3600.0, 0.0)], WEEK_S),
        load=systems.load(
            operations=(systems.pulse(0.01, 0.1, 60.0, windows_s=((10 * 3600.0, 12 * 3600.0),)),)
        ),
    )
    found = stretches_of(made)
    assert (found.edges_s[:6] / 3600.0).tolist() == [0.0, 9.0, 10.0, 12.0, 17.0, 168.0]
    assert found.due[:, 0].tolist() == [False, False, True, False, False]


def test_windows_open_in_every_week_of_a_long_course():
    hours = ((DAY_S, DAY_S + 3600.0),)
    made = systems.system(
        light=systems.levels([(0.0, 1e-3)], 2.5 * WEEK_S, begins_at_s=2 * DAY_S),
        load=systems.load(operations=(systems.pulse(0.01, 0.1, 60.0, windows_s=hours),)),
    )
    found = stretches_of(made)
    due_s = float(np.diff(found.edges_s) @ found.due[:, 0])
    assert due_s == 2 * 3600.0
    opened = found.edges_s[:-1][found.due[:, 0]] + 2 * DAY_S
    assert (opened % WEEK_S).tolist() == [DAY_S, DAY_S]


# ---- whole runs ----------------------------------------------------------------------------


def averaged_load(draw_a, **more):
    """A load without pulses, so that the exact engine averages nothing."""
    return systems.load(sleep=replace(systems.NO_DRAW, current_a=draw_a), **more)


def week_of(*, photocurrent_a=4e-4, draw_a=1e-4, capacitance_f=1.0, connect_v=3.0):
    days = [(k * DAY_S + h * 3600.0, photocurrent_a if h == 8 else 0.0)
            for k in range(7) for h in (8, 18)]
    return systems.system(
        light=systems.levels([(0.0, 0.0), *days], WEEK_S),
        panel=systems.AMORPHOUS,
        charger=systems.SCHOTTKY,
        store=systems.bank(capacitance_f, leakage_a=2e-6, esr_ohm=0.5),
        load=averaged_load(draw_a, connect_v=connect_v, off_v=2.0),
        quiescent_a=3e-7,
    )


@pytest.mark.parametrize("amps", [2e-5, 6e-5, 3e-4])
def test_a_week_from_empty_ends_where_the_exact_engine_ends(amps):
    made = week_of(draw_a=amps)
    batch = prepare(made, 1)
    rows = run.begin_rows(batch, batch.nodes_c[:, 0], connected=False)
    run.run_period(batch, rows)
    engine = Engine(made)
    exact = engine.march(WEEK_S, Standing(charge_c=0.0, connected=False))
    full = float(batch.nodes_c[0, -1])
    assert rows.charge_c[0] == pytest.approx(exact.end.charge_c, abs=0.012 * full)
    assert rows.connected[0] == exact.end.connected
    assert rows.lost[0] == exact.tally.cut_offs
    assert rows.connected_s[0] == pytest.approx(exact.tally.connected_s, rel=0.02)


@pytest.mark.parametrize("limit_a", [0.1, 2e-4])
def test_a_table_of_efficiencies_is_the_same_in_the_batch(limit_a):
    made = week_of(draw_a=3e-5, capacitance_f=60.0)
    charger = systems.converter(table=systems.RISING, loss_ohm=0.0, output_limit_a=limit_a)
    made = replace(made, charger=charger)
    batch = prepare(made, 1)
    rows = run.begin_rows(batch, batch.nodes_c[:, 0], connected=False)
    run.run_period(batch, rows)
    engine = Engine(made)
    exact = engine.march(WEEK_S, Standing(charge_c=0.0, connected=False))
    full = float(batch.nodes_c[0, -1])
    assert 0.1 * full < exact.end.charge_c < 0.9 * full
    assert rows.charge_c[0] == pytest.approx(exact.end.charge_c, abs=0.003 * full)


def test_the_dark_lasts_as_long_as_in_the_exact_engine():
    made = week_of(draw_a=5e-5)
    batch = prepare(made, 1)
    engine = Engine(made)
    q = engine.field.charge_at(4.5)
    start = Standing(charge_c=q, connected=True)
    exact = engine.dark().march(WEEK_S, start, stop_at=StopAt.CUT_OFF)
    lasts = run.dark_time(
        batch, np.zeros(1, int), np.array([q]), np.zeros(1, int), np.array([WEEK_S])
    )
    assert exact.tally.cut_offs == 1
    assert lasts[0] == pytest.approx(exact.span_s, rel=2e-3)


def test_the_dark_is_walked_through_the_windows_of_a_load():
    """Pulses of 12 h a day: from noon the store meets them at once, from midnight later."""
    windows = tuple((d * DAY_S + 12 * 3600.0, (d + 1) * DAY_S) for d in range(7))
    made = week_of(draw_a=1e-6)
    made = replace(made, load=replace(
        made.load, operations=(systems.pulse(0.01, 0.1, 10.0, windows_s=windows),)
    ))
    batch = prepare(made, 1)
    edges = batch.stretches.edges_s
    full = batch.nodes_c[:, -1]
    times = []
    for hour in (0.0, 12.0):
        k = np.array([int(np.searchsorted(edges, hour * 3600.0))])
        times.append(
            run.dark_time(batch, np.zeros(1, int), full, k, np.array([WEEK_S]))[0]
        )
        engine = Engine(made)
        exact = engine.dark().march(
            WEEK_S, Standing(charge_c=float(full[0]), connected=True), begin_s=hour * 3600.0,
            stop_at=StopAt.CUT_OFF,
        )
        assert times[-1] == pytest.approx(exact.span_s, rel=0.01)
    assert times[0] > times[1] + 8 * 3600.0


def test_systems_side_by_side_run_as_each_alone():
    values = {"photocurrent_a": [2e-4, 4e-4, 8e-4], "capacitance_f": [0.5, 1.0, 2.0]}
    alone = [
        week_of(photocurrent_a=p, capacitance_f=c)
        for p, c in zip(*values.values(), strict=True)
    ]
    column = np.array(values["capacitance_f"])[:, None]
    together = replace(
        alone[0],
        light=replace(
            alone[0].light, photocurrent_a=np.array([a.light.photocurrent_a for a in alone])
        ),
        store=replace(alone[0].store, capacitance_f=column),
    )
    batch = prepare(together, 3)
    rows = run.begin_rows(batch, batch.nodes_c[:, 0], connected=False)
    run.run_period(batch, rows)
    for i, one in enumerate(alone):
        single = prepare(one, 1)
        found = run.begin_rows(single, single.nodes_c[:, 0], connected=False)
        run.run_period(single, found)
        assert rows.charge_c[i] == pytest.approx(found.charge_c[0], rel=1e-9)
        assert rows.first_s[i] == pytest.approx(found.first_s[0], rel=1e-9)


def test_a_resting_system_stays_as_it_is():
    made = week_of()
    batch = prepare(replace(made, store=replace(made.store, capacitance_f=np.ones((2, 1)))), 2)
    rows = run.begin_rows(batch, batch.nodes_c[:, 20], connected=True)
    run.run_period(batch, rows, active=np.array([True, False]))
    assert rows.charge_c[1] == batch.nodes_c[1, 20]
    assert rows.charge_c[0] != batch.nodes_c[0, 20]


def test_a_leaf_of_another_length_is_refused():
    made = week_of()
    with pytest.raises(ValueError, match="broadcast"):
        prepare(replace(made, store=replace(made.store, capacitance_f=np.ones((3, 1)))), 2)


# ---- what a batch shares with the march ------------------------------------------------------


def both(made, span_s=WEEK_S):
    """A period from empty, by the batch and by the march."""
    batch = prepare(made, 1)
    rows = run.begin_rows(batch, batch.nodes_c[:, 0], connected=False)
    run.run_period(batch, rows)
    return rows, Engine(made).march(span_s, Standing(charge_c=0.0, connected=False))


def under_steady_light(load, farad=0.1, photocurrent_a=2e-5, **more):
    return systems.system(
        light=systems.levels([(0.0, photocurrent_a)], WEEK_S), panel=systems.AMORPHOUS,
        charger=systems.SCHOTTKY, store=systems.bank(farad, **more), load=load,
    )


def test_the_bulk_capacitance_is_filled_from_the_store():
    """0.05 F filled to 3 V take half of the store: it is below its cut-off at once."""
    quiet = averaged_load(1e-6, connect_v=3.0, off_v=2.0)
    for bulk_f, fails in ((0.05, True), (0.001, False)):
        rows, exact = both(under_steady_light(replace(quiet, bulk_f=bulk_f)))
        assert (exact.tally.cut_offs > 0) == fails
        assert (rows.lost[0] > 0) == fails
        assert rows.lost[0] == pytest.approx(exact.tally.cut_offs, rel=0.05)


def test_a_blocking_diode_leaks_back_in_the_dark():
    leaky = replace(systems.SCHOTTKY, diode_saturation_a=2e-6)
    made = replace(week_of(draw_a=1e-6), charger=leaky)
    batch, engine = prepare(made, 1), Engine(made)
    q = engine.field.charge_at(4.5)
    exact = engine.dark().march(
        8 * WEEK_S, Standing(charge_c=q, connected=True), stop_at=StopAt.CUT_OFF
    )
    lasts = run.dark_time(
        batch, np.zeros(1, int), np.array([q]), np.zeros(1, int), np.array([8 * WEEK_S])
    )
    assert exact.tally.cut_offs == 1
    assert lasts[0] == pytest.approx(exact.span_s, rel=5e-3)


def test_a_run_that_waits_takes_whatever_arrives():
    ready = systems.when_ready(4.0, (replace(systems.NO_DRAW, current_a=0.01), 0.5))
    load = averaged_load(2e-6, connect_v=3.0, off_v=2.0)
    rows, exact = both(under_steady_light(replace(load, operations=(ready,))))
    assert exact.tally.served[0] > 100
    assert rows.ran[0] == pytest.approx(exact.tally.served[0], rel=0.02)
    assert rows.lost[0] == exact.tally.cut_offs == 0


def test_a_start_up_that_fails_comes_off_after_a_long_delay_in_the_light():
    """While the switch waits to try again the store gathers more than the connect threshold."""
    start = systems.pulse(4e-3, 30.0, 1.0).phases
    load = averaged_load(1e-6, connect_v=3.0, off_v=2.0)
    for delay_s, comes in ((40_000.0, True), (10.0, False)):
        made = under_steady_light(
            replace(load, start_up=start, retry_delay_s=delay_s), esr_ohm=50.0
        )
        reached = run.starts_at(prepare(made, 1), 0)
        exact = Engine(made).march(WEEK_S, Standing(charge_c=0.0, connected=False))
        assert (exact.tally.started > 0) == comes
        assert np.isfinite(reached[0]) == comes


def test_the_light_lifts_the_terminals_to_the_connect_in_the_batch_too():
    """20 µA through 20 kΩ are nearly 0.4 V: the store need not hold what the terminals show."""
    quiet = averaged_load(1e-6, connect_v=3.0, off_v=2.0)
    for esr_ohm, stores_v in ((0.0, 3.0), (20_000.0, 2.65)):
        made = under_steady_light(quiet, esr_ohm=esr_ohm)
        exact = Engine(made).march(WEEK_S, Standing(charge_c=0.0, connected=False))
        connect_c = exact.events[0].charge_c
        assert connect_c / 0.1 == pytest.approx(stores_v, abs=0.06)
        assert run.starts_at(prepare(made, 1), 0)[0] == pytest.approx(connect_c, rel=0.003)


@pytest.mark.parametrize("connect_v", [4.9, 5.0, 5.1, 5.15])
def test_what_comes_and_goes_above_a_full_store_is_counted_too(connect_v):
    """20 µA through 10 kΩ lift the terminals of a store that is full at 5 V to 5.2 V."""
    busy = averaged_load(3e-5, connect_v=connect_v, off_v=4.3)
    made = under_steady_light(busy, esr_ohm=10_000.0)
    rows, exact = both(made)
    assert exact.tally.cut_offs > 50
    assert rows.lost[0] == pytest.approx(exact.tally.cut_offs, rel=0.5)


def test_what_never_connects_does_not_come_and_go():
    busy = averaged_load(3e-5, connect_v=5.4, off_v=4.3)
    batch = prepare(under_steady_light(busy, esr_ohm=10_000.0), 1)
    only = np.zeros(1, np.intp)
    start_c, cut = run.starts_at(batch, 0), batch.cut[()]
    assert np.isinf(start_c[0])
    with np.errstate(all="raise"):
        share, turns = run._to_and_fro(batch, only, batch.on[(0, ())], batch.off[0], start_c, cut)
    assert share[0] == turns[0] == 0.0
