"""The fit to a logged run against scipy's general-purpose curve_fit on a closed form.

A capacitor on its leakage resistance discharges as V exp(-t/RC) (elementary circuit theory);
`scipy.optimize.curve_fit` (Levenberg-Marquardt of MINPACK, J. J. More, Lecture Notes in Mathematics
630, 1978) fits that formula to the same noisy readings.
"""

import numpy as np
import pytest
from scipy import stats
from scipy.optimize import curve_fit

from explorer.advice.bench.fit import fit
from explorer.advice.bench.parameters import parameter
from explorer.advice.case import Case
from explorer.scenario.logged_run import BenchRun
from explorer.scenario.model import Scenario


def test_leakage_and_its_uncertainty_are_those_of_a_general_tool():
    data = Scenario().model_dump()
    data["light"].update(illuminance_lx=1.0, cover_factor=0.0, pattern={"kind": "steady"})
    data["charger"].update(quiescent_A=0.0)
    data["store"] = {
        "kind": "capacitor", "capacitance_F": 0.1, "rated_V": 5.0, "leakage_A": 2e-6,
        "esr_ohm": 0.0,
    }
    data["load"].update(sleep_A=0.0, operations=(), connect_V=4.9, disconnect_V=4.0)
    scenario = Scenario.model_validate(data)
    time_s = np.arange(0.0, 200_000.0, 500.0)
    leak_ohm = 5.0 / 3e-6
    noise = np.random.default_rng(7).normal(0.0, 0.004, len(time_s))
    volts = 3.5 * np.exp(-time_s / (leak_ohm * 0.1)) + noise

    def discharge(t, first_v, leak_a):
        return first_v * np.exp(-t * leak_a / (5.0 * 0.1))

    expected, covariance = curve_fit(discharge, time_s, volts, p0=(3.5, 2e-6))
    run = BenchRun(name="rc", time_s=time_s, volts=volts, low_v=volts, high_v=volts, step_s=500.0,
                   readings=len(time_s))
    found = list(fit(Case(scenario), run, [parameter(scenario, "store.leakage_A")]))[-1]
    assert found.is_good
    value = found.values[0]
    deviation = np.sqrt(covariance[1, 1])
    assert abs(value.value - expected[1]) < 0.3 * deviation
    wide = deviation * stats.t.ppf(0.975, len(time_s) - 2)
    assert value.plus_minus == pytest.approx(wide, rel=0.25)
