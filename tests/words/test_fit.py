"""A fitted value is told with the interval that it was found with."""

import math
from types import SimpleNamespace

import pytest

from explorer.advice.bench.fit import Fitted
from explorer.advice.bench.parameters import parameter
from explorer.scenario.model import Scenario
from explorer.words.fit import remark, value_text


@pytest.mark.parametrize(
    ("plus_minus", "told"),
    [
        (3e-7, "2.6 µA ± 300 nA"),
        (2.5e-6, "2.6 µA ± 2.5 µA"),
        (6.4e-5, "2.6 µA or up to 67 µA"),  # no lower side: a leakage below zero is none
        (1e-2, "2.6 µA ± unknown"),
        (math.inf, "2.6 µA ± unknown"),
    ],
)
def test_a_half_width_beyond_the_value_is_told_by_its_upper_end(plus_minus, told):
    found = Fitted(
        parameter=parameter(Scenario(), "store.leakage_A"), value=2.6e-6, plus_minus=plus_minus,
        by_readings=1e-9, mostly="", at_limit=False, slides=False, is_followed=True,
    )
    assert value_text(found) == told


@pytest.mark.parametrize(
    ("by_readings", "mostly", "hint"),
    [
        (1e-8, "Capacitance", "state how well it is known: Capacitance."),
        (1e-8, "", "Log a long dark stretch."),
        (3e-6, "Capacitance", "Log a long dark stretch."),  # the readings do not see it either
    ],
)
def test_what_another_such_run_would_leave_open_is_measured_by_itself(by_readings, mostly, hint):
    value = Fitted(
        parameter=parameter(Scenario(), "store.leakage_A"), value=2.6e-6, plus_minus=6.4e-5,
        by_readings=by_readings, mostly=mostly, at_limit=False, slides=False, is_followed=True,
    )
    found = SimpleNamespace(done=True, values=(value,), inseparable=(), is_followed=True)
    assert hint in remark(found, 0)
