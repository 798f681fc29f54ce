"""A draw that asks more than the series resistance passes is cut off, whatever the charger does."""

import numpy as np
import pytest

from explorer.engine.course import Standing
from explorer.engine.keys import StartUp
from explorer.engine.march import Engine
from explorer.engine.system import Phase
from explorer.physics.load import Draw
from tests.engine.systems import AMORPHOUS, bank, converter, load, steady, system


@pytest.mark.parametrize("esr_ohm", [10.0, 30.0, 60.0, 200.0])
def test_light_does_not_hide_a_start_up_that_is_out_of_reach(esr_ohm):
    engine = Engine(
        system(
            light=steady(240e-6),
            panel=AMORPHOUS,
            charger=converter(),
            store=bank(1e-3, esr_ohm=esr_ohm),
            load=load(
                connect_v=3.3, off_v=2.5,
                start_up=(Phase(draw=Draw(power_w=0.0139), duration_s=5.0),),
            ),
        )
    )
    run = engine.march(3600.0, Standing(charge_c=0.0, connected=False))
    assert run.tally.cut_offs > 0
    assert run.tally.started == 0
    # Without light the cut-off lies higher, since nothing holds the terminals up.
    key = StartUp(0)
    lit, dark = (engine.motion(amps, True, key) for amps in (240e-6, 0.0))
    assert np.isfinite(lit.off_c)
    assert lit.off_c == pytest.approx(dark.off_c, rel=0.1)
    assert float(engine.field.voltage_at(lit.off_c)) > 2.5
