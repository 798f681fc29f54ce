"""The references of the other tests in this folder against Wien, Stefan, Boltzmann and a search."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import minimize_scalar

from explorer.physics import light
from tests import radiation

NM = np.arange(300.0, 1201.0)
BELL = np.exp(-(((NM - 555.0) / 45.0) ** 2))
FLAT = np.ones_like(NM)


def test_planck_peaks_where_wien_says():
    wavelength = np.linspace(800.0, 1300.0, 50_001)
    peak = wavelength[np.argmax(radiation.planck(wavelength, 2856.0))]
    assert peak == pytest.approx(2.897771955e6 / 2856.0, rel=1e-4)


def test_planck_sums_up_to_the_stefan_boltzmann_law():
    wavelength = np.geomspace(100.0, 1e6, 20_001)
    total = np.pi * light.integral(wavelength, radiation.planck(wavelength, 2856.0))
    assert total == pytest.approx(5.670374419e-8 * 2856.0**4, rel=1e-5)


@pytest.mark.parametrize("lux", [1e-9, 1e-5, 0.1, 400.0, 1e5])
def test_the_limit_matches_a_search_over_the_voltage(lux):
    absolute = light.spectral_irradiance(lux, NM, FLAT, BELL)
    gaps = np.array([[1.04, 1.424], [1.7, 2.2]])
    limit = radiation.detailed_balance(NM, absolute, gaps)
    assert limit.max_power_w_per_m2.shape == gaps.shape
    thermal_v = radiation.BOLTZMANN_J_PER_K * radiation.REFERENCE_K / light.ELEMENTARY_CHARGE_C
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
    limit = radiation.detailed_balance(NM, FLAT, gap, 300.0)
    thermal_j = radiation.BOLTZMANN_J_PER_K * 300.0
    x = gap * light.ELEMENTARY_CHARGE_C / thermal_j
    photons, _ = quad(lambda u: (x + u) ** 2 / np.expm1(x + u), 0.0, 60.0, epsrel=1e-12, epsabs=0)
    flow = (
        2.0 * np.pi * thermal_j**3 / (light.LIGHT_SPEED_M_PER_S**2 * light.PLANCK_J_S**3) * photons
    )
    assert limit.saturation_a_per_m2 == pytest.approx(light.ELEMENTARY_CHARGE_C * flow, rel=1e-9)


def test_a_wider_gap_takes_fewer_photons_without_a_step():
    gaps = np.linspace(1.1, 3.0, 2001)
    current = radiation.detailed_balance(NM, FLAT, gaps).short_circuit_a_per_m2
    assert (np.diff(current) < 0.0).all()
    assert np.abs(np.diff(current, 2)).max() < 1e-4 * current[0]


@given(st.floats(1e-3, 1e3))
def test_the_limit_rises_faster_than_the_light(lux):
    def power(level):
        absolute = light.spectral_irradiance(level, NM, FLAT, BELL)
        return float(radiation.detailed_balance(NM, absolute, 1.5).max_power_w_per_m2)

    assert power(2.0 * lux) > 2.0 * power(lux)


def test_the_last_step_of_a_coarse_spectrum_is_cut_where_the_gap_lies():
    coarse = np.array([300.0, 600.0, 900.0, 1200.0])
    gap_nm = 700.0
    volt_nm = light.PLANCK_J_S * light.LIGHT_SPEED_M_PER_S / light.ELEMENTARY_CHARGE_C * 1e9
    limit = radiation.detailed_balance(coarse, np.ones(4), volt_nm / gap_nm)
    # ∫ λ dλ from 300 to 700 nm, for 1 W/(m²·nm) throughout
    expected = 0.5 * (gap_nm**2 - 300.0**2) / volt_nm
    assert limit.short_circuit_a_per_m2 == pytest.approx(expected, rel=1e-12)
