import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import minimize_scalar

from explorer.physics import light

NM = np.arange(300.0, 1201.0)
BELL = np.exp(-(((NM - 555.0) / 45.0) ** 2))
"""A stand-in for the eye, so that these tests need no table."""
FLAT = np.ones_like(NM)


def test_planck_peaks_where_wien_says():
    wavelength = np.linspace(800.0, 1300.0, 50_001)
    peak = wavelength[np.argmax(light.planck(wavelength, 2856.0))]
    assert peak == pytest.approx(2.897771955e6 / 2856.0, rel=1e-4)


def test_planck_sums_up_to_the_stefan_boltzmann_law():
    wavelength = np.geomspace(100.0, 1e6, 20_001)
    total = np.pi * light.integral(wavelength, light.planck(wavelength, 2856.0))
    assert total == pytest.approx(5.670374419e-8 * 2856.0**4, rel=1e-5)


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


@pytest.mark.parametrize("lux", [1e-9, 1e-5, 0.1, 400.0, 1e5])
def test_the_limit_matches_a_search_over_the_voltage(lux):
    absolute = light.spectral_irradiance(lux, NM, FLAT, BELL)
    gaps = np.array([[1.04, 1.424], [1.7, 2.2]])
    limit = light.detailed_balance(NM, absolute, gaps)
    assert limit.max_power_w_per_m2.shape == gaps.shape
    thermal_v = light.BOLTZMANN_J_PER_K * light.REFERENCE_K / light.ELEMENTARY_CHARGE_C
    for at in np.ndindex(gaps.shape):
        saturation = limit.saturation_a_per_m2[at]
        current = limit.short_circuit_a_per_m2[at]
        found = minimize_scalar(
            lambda v, j=current, j0=saturation: -v * (j - j0 * np.expm1(v / thermal_v)),
            bounds=(0.0, limit.open_circuit_v[at]),
            method="bounded",
            options={"xatol": 1e-12},
        )
        assert limit.max_power_w_per_m2[at] == pytest.approx(-found.fun, rel=1e-9)
        assert current == pytest.approx(saturation * np.expm1(limit.open_circuit_v[at] / thermal_v))


@pytest.mark.parametrize("gap", [0.05, 0.3, 1.3])
def test_the_saturation_current_is_the_cells_own_glow(gap):
    limit = light.detailed_balance(NM, FLAT, gap, 300.0)
    thermal_j = light.BOLTZMANN_J_PER_K * 300.0
    x = gap * light.ELEMENTARY_CHARGE_C / thermal_j
    photons, _ = quad(lambda u: (x + u) ** 2 / np.expm1(x + u), 0.0, 60.0, epsrel=1e-12, epsabs=0)
    flow = (
        2.0 * np.pi * thermal_j**3 / (light.LIGHT_SPEED_M_PER_S**2 * light.PLANCK_J_S**3) * photons
    )
    assert limit.saturation_a_per_m2 == pytest.approx(light.ELEMENTARY_CHARGE_C * flow, rel=1e-9)


def test_a_wider_gap_takes_fewer_photons_without_a_step():
    gaps = np.linspace(1.1, 3.0, 2001)
    current = light.detailed_balance(NM, FLAT, gaps).short_circuit_a_per_m2
    assert (np.diff(current) < 0.0).all()
    assert np.abs(np.diff(current, 2)).max() < 1e-4 * current[0]


@given(st.floats(1e-3, 1e3))
def test_the_limit_rises_faster_than_the_light(lux):
    def power(level):
        absolute = light.spectral_irradiance(level, NM, FLAT, BELL)
        return float(light.detailed_balance(NM, absolute, 1.5).max_power_w_per_m2)

    assert power(2.0 * lux) > 2.0 * power(lux)


def test_the_last_step_of_a_coarse_spectrum_is_cut_where_the_gap_lies():
    coarse = np.array([300.0, 600.0, 900.0, 1200.0])
    gap_nm = 700.0
    volt_nm = light.PLANCK_J_S * light.LIGHT_SPEED_M_PER_S / light.ELEMENTARY_CHARGE_C * 1e9
    limit = light.detailed_balance(coarse, np.ones(4), volt_nm / gap_nm)
    # ∫ λ dλ from 300 to 700 nm, for 1 W/(m²·nm) throughout
    expected = 0.5 * (gap_nm**2 - 300.0**2) / volt_nm
    assert limit.short_circuit_a_per_m2 == pytest.approx(expected, rel=1e-12)
