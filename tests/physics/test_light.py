import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.physics import light

NM = np.arange(300.0, 1201.0)
BELL = np.exp(-(((NM - 555.0) / 45.0) ** 2))
"""A stand-in for the eye, so that these tests need no table."""
FLAT = np.ones_like(NM)


@given(st.floats(0.0, 2e5), st.floats(0.01, 100.0))
def test_a_spectrum_scaled_to_lux_reads_those_lux_whatever_its_own_scale(lux, scale):
    absolute = light.spectral_irradiance(lux, NM, scale * FLAT, BELL)
    assert light.illuminance(NM, absolute, BELL) == pytest.approx(lux, rel=1e-12)


def test_many_light_levels_are_scaled_at_once():
    absolute = light.spectral_irradiance(np.array([[1.0, 2.0], [3.0, 4.0]]), NM, FLAT, BELL)
    assert absolute.shape == (2, 2, NM.size)
    assert light.illuminance(NM, absolute, BELL) == pytest.approx(np.array([[1, 2], [3, 4]]))


def test_a_source_without_visible_light_has_no_lux():
    with pytest.raises(ValueError, match="no visible light"):
        light.spectral_irradiance(
            100.0, NM, np.where(NM > 900.0, 1.0, 0.0), np.where(NM < 800, 1.0, 0)
        )


def test_watts_per_lux_and_lumens_per_watt_are_reciprocal():
    watts = light.irradiance_per_lux(NM, FLAT, BELL)
    assert watts * light.luminous_efficacy(NM, FLAT, BELL) == pytest.approx(1.0)
    absolute = light.spectral_irradiance(250.0, NM, FLAT, BELL)
    assert light.integral(NM, absolute) == pytest.approx(250.0 * watts)


def test_infrared_adds_current_but_no_lux():
    cut = np.where(NM < 780.0, 1.0, 0.0)
    everywhere = (np.array([300.0, 1200.0]), np.array([1.0, 1.0]))
    whole = light.photocurrent_per_lux(NM, FLAT, BELL, *everywhere)
    visible = light.photocurrent_per_lux(NM, cut, BELL, *everywhere)
    assert whole > 2.0 * visible
    assert light.illuminance(NM, FLAT, BELL) == pytest.approx(
        light.illuminance(NM, cut, BELL), rel=1e-9
    )


def test_a_cell_counts_nothing_outside_its_table_and_outside_the_band():
    wide = np.arange(200.0, 1501.0)
    eye = np.exp(-(((wide - 555.0) / 45.0) ** 2))
    everywhere = (np.array([200.0, 1500.0]), np.array([1.0, 1.0]))
    narrow = (np.array([500.0, 600.0]), np.array([1.0, 1.0]))
    inside = light.photocurrent_per_lux(NM, FLAT, BELL, *everywhere)
    outside = light.photocurrent_per_lux(wide, np.ones_like(wide), eye, *everywhere)
    assert outside == pytest.approx(inside, rel=3e-3)  # half a step at each edge of the band
    assert light.photocurrent_per_lux(NM, FLAT, BELL, *narrow) < 0.15 * inside


def test_one_electron_for_each_photon_of_one_colour():
    near = np.array([549.0, 550.0, 551.0])
    absolute = np.array([0.0, 1.0, 0.0])  # 1 W/m² in all, at 550 nm
    volts = light.PLANCK_J_S * light.LIGHT_SPEED_M_PER_S / 550e-9 / light.ELEMENTARY_CHARGE_C
    assert light.photocurrent_density(near, absolute, 1.0) == pytest.approx(1.0 / volts)
    assert light.photocurrent_density(near, absolute, 0.5) == pytest.approx(0.5 / volts)
