"""A converter's efficiency against input power and store voltage."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator

from explorer.physics.efficiency import EfficiencyCurve, EfficiencyTable

LOW = EfficiencyCurve(power_w=(1e-5, 1e-4, 1e-3), share=(0.4, 0.7, 0.8))
HIGH = EfficiencyCurve(power_w=(1e-5, 1e-3), share=(0.6, 0.9))
TABLE = EfficiencyTable(volts=(2.0, 4.0), curves=(LOW, HIGH))

shares = st.floats(0.05, 1.0)


@st.composite
def curves(draw):
    logs = draw(st.lists(st.integers(-70, 0), min_size=2, max_size=12, unique=True))
    power = tuple(10.0 ** (n / 10.0) for n in sorted(logs))
    return EfficiencyCurve(power_w=power, share=tuple(draw(shares) for _ in power))


def test_it_goes_through_its_rows():
    assert LOW.at(LOW.power_w) == pytest.approx(LOW.share)


@settings(max_examples=40)
@given(curve=curves(), where=st.floats(0.0, 1.0))
def test_between_rows_it_is_the_usual_monotone_cubic_in_the_logarithm(curve, where):
    x = np.log(curve.power_w)
    at = x[0] + where * (x[-1] - x[0])
    assert float(curve.at(np.exp(at))) == pytest.approx(
        float(PchipInterpolator(x, curve.share)(at)), abs=1e-9
    )


@settings(max_examples=40)
@given(curve=curves())
def test_it_never_leaves_the_range_of_two_rows(curve):
    for k in range(len(curve.power_w) - 1):
        between = curve.at(np.geomspace(curve.power_w[k], curve.power_w[k + 1], 20)[1:-1])
        low, high = sorted(curve.share[k : k + 2])
        assert np.all(between >= low - 1e-12)
        assert np.all(between <= high + 1e-12)


def test_below_the_first_row_the_lost_power_stays():
    """10 µW in, 4 out: 6 µW lost. Of 8 µW 2 are left, of 6 µW and less nothing."""
    assert LOW.at([8e-6, 6e-6, 1e-6, 0.0]) == pytest.approx([0.25, 0.0, 0.0, 0.0])


def test_above_the_last_row_the_efficiency_stays():
    assert LOW.at([1e-2, 5.0]) == pytest.approx([0.8, 0.8])


def test_between_store_voltages_it_is_straight_and_beyond_them_it_stays():
    out = TABLE.outputs(1e-5)
    volts = np.array([1.0, 2.0, 2.5, 4.0, 5.0])
    assert TABLE.between(out, volts) == pytest.approx([4e-6, 4e-6, 4.5e-6, 6e-6, 6e-6])


def test_a_scaled_table_never_gives_more_than_it_takes():
    table = EfficiencyTable(volts=(0.0,), curves=(HIGH,), scale=1.2)
    assert table.outputs(1e-5)[0] == pytest.approx(7.2e-6)
    assert table.outputs(1e-2)[0] == pytest.approx(1e-2)


@settings(max_examples=40)
@given(output=st.floats(1e-7, 7e-4), volts=st.floats(1.0, 5.0))
def test_the_input_for_an_output_is_the_least_that_gives_it(output, volts):
    at, wanted = np.array([volts]), np.array([output])
    watt = TABLE.input_for(wanted, at, 1e-3)
    assert TABLE.between(TABLE.outputs(watt), at) == pytest.approx(wanted, rel=1e-9)
