"""Many designs are read like one scenario, whose sections go on holding one number in a field."""

import gc

import numpy as np
import pytest
from pydantic import BaseModel

from explorer.advice.case import Case
from explorer.advice.fleet import balances, fleet
from explorer.advice.gathered import gathered
from explorer.advice.variants import Varied, varied
from explorer.scenario.cells import CellStore
from explorer.scenario.demand import Every, Load, Operation, Phase
from explorer.scenario.fields import Section
from explorer.scenario.light import Light, SteadyPattern
from explorer.scenario.model import Margins, Scenario, get_value, with_value
from explorer.scenario.supply import ConverterCharger
from tests.advice.demos import LOGGED, demo

ASKED = Margins(operations_per_hour=2.0, rate_light_lx=300.0, fill_within_h=40.0, store_years=4.0)


def cell_in_steady_light():
    return Scenario(
        light=Light(illuminance_lx=400.0, pattern=SteadyPattern()),
        charger=ConverterCharger(full_V=4.1), store=CellStore(),
        load=Load(connect_V=3.5, disconnect_V=3.2, minimum_V=3.0),
        margins=ASKED,
    )


def logged_bank():
    scenario, log = demo(LOGGED)
    return Case(scenario.model_copy(update={"margins": ASKED}), log)


def columns(scenario, path):
    return np.array([0.9, 1.1]) * float(get_value(scenario, path) or 300.0)


PATHS = (
    "light.illuminance_lx", "light.ambient_C", "panels.active_area_cm2", "charger.full_V",
    "charger.quiescent_A", "load.sleep_A", "load.operations.0.phases.0.duration_s",
    "load.operations.0.schedule.interval_s", "margins.rate_light_lx", "margins.closure_days",
    "margins.fill_within_h", "store.years_in_service",
)


@pytest.mark.parametrize("case", [Case(cell_in_steady_light()), logged_bank()], ids=["cell", "log"])
def test_no_section_ever_holds_an_array(case, monkeypatch):
    """Neither those that live afterwards nor those that were made in between."""
    made, copy = [], BaseModel.__copy__
    monkeypatch.setattr(
        BaseModel, "__copy__", lambda self: made.append(copy(self)) or made[-1]
    )
    scenario = case.scenario
    paths = [*PATHS, f"store.{scenario.store.size_key}"]
    for path in paths if case.log is None else paths[-5:]:
        fleet(case, {path: columns(scenario, path)}, with_answers=True)
    together = {path: columns(scenario, path) for path in paths}
    balances(case, together)
    several = gathered(case.varied(together), case)
    assert np.shape(several.scenario.store.size) == (2, 1)
    assert made
    for section in [*made, *(s for s in gc.get_objects() if isinstance(s, Section))]:
        for key, value in section.__dict__.items():
            assert not isinstance(value, np.ndarray | Varied), (type(section).__name__, key)


def test_a_section_refuses_an_array():
    with pytest.raises(TypeError, match="illuminance_lx of Light"):
        Light().model_copy(update={"illuminance_lx": np.array([1.0, 2.0])})


def test_what_a_section_works_out_is_worked_out_for_each_design():
    """What a store says of itself follows its columns, also through what it says by others."""
    scenario, _ = demo("soil_probe")
    many = varied(scenario, {"store.rated_V": [2.5, 3.0], "store.lowest_V": [0.5, 0.25]})
    for i, (rated_v, lowest_v) in enumerate([(2.5, 0.5), (3.0, 0.25)]):
        one = with_value(with_value(scenario, "store.rated_V", rated_v), "store.lowest_V", lowest_v)
        assert many.store.empty_v[i, 0] == one.store.empty_v
        built, alone = many.store.built(25.0, 3.0), one.store.built(25.0, 3.0)
        assert built.rated_v[i, 0] == alone.rated_v
        assert built.esr_ohm[i, 0] == pytest.approx(alone.esr_ohm, rel=1e-12)
    assert many.store.capacitance_F == scenario.store.capacitance_F


def test_what_is_not_there_is_refused_for_many_designs():
    with pytest.raises(KeyError, match="no 'moon' here"):
        varied(Scenario(), {"light.moon": [1.0]})


def test_a_phase_of_one_operation_is_varied_alone():
    load = Load(operations=(
        Operation(schedule=Every(interval_s=60.0), phases=(Phase(current_A=0.01, duration_s=1.0),)),
    ))
    many = varied(Scenario(load=load), {"load.operations.0.phases.0.current_A": [0.02, 0.03]})
    phase = many.load.operations[0].phases[0]
    assert np.ravel(phase.current_A).tolist() == [0.02, 0.03]
    assert phase.duration_s == 1.0
    assert load.operations[0].phases[0].current_A == 0.01
