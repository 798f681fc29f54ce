"""Light: what a lux reading means in watts, photons and photocurrent.

Spectra are relative: only their shape counts, illuminance sets the scale. Every function takes
arrays that share one wavelength grid, and integrates with the trapezoid rule along the last axis.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from explorer.physics.arrays import FloatArray
from explorer.physics.constants import ELEMENTARY_CHARGE_C
from explorer.text import say

PLANCK_J_S = 6.62607015e-34
"""Exact, SI 2019 (CODATA)."""
LIGHT_SPEED_M_PER_S = 299_792_458.0
"""Exact, SI."""
LUMINOUS_EFFICACY_LM_PER_W = 683.0
"""K_cd at 540 THz, exact in the SI; the 683.002 at 555 nm in air differs by 3e-6."""
BAND_NM = (300.0, 1200.0)
"""Wavelengths within which any of the cells answers."""


def integral(wavelength_nm: FloatArray, values: FloatArray) -> FloatArray:
    """Trapezoid rule over rising wavelengths along the last axis of ``values``."""
    middles = 0.5 * (values[..., 1:] + values[..., :-1])
    return np.asarray((middles * np.diff(wavelength_nm)).sum(axis=-1))


def illuminance(
    wavelength_nm: FloatArray, irradiance_w_per_m2_nm: FloatArray, photopic: FloatArray
) -> FloatArray:
    """Illuminance of an absolute spectrum, E_v = 683·∫V·E_λ dλ.

    Parameters
    ----------
    wavelength_nm : numpy.ndarray, shape (n,)
        Rising wavelengths. [nm]
    irradiance_w_per_m2_nm : numpy.ndarray, shape (..., n)
        Spectral irradiance. [W/(m²·nm)]
    photopic : numpy.ndarray, shape (n,)
        CIE 1924 V(λ) on the same grid.

    Returns
    -------
    numpy.ndarray, shape (...)
        Illuminance. [lx]
    """
    seen = integral(wavelength_nm, irradiance_w_per_m2_nm * photopic)
    return np.asarray(LUMINOUS_EFFICACY_LM_PER_W * seen)


def spectral_irradiance(
    illuminance_lx: ArrayLike,
    wavelength_nm: FloatArray,
    relative: FloatArray,
    photopic: FloatArray,
) -> FloatArray:
    """Absolute spectrum behind a lux reading, E_λ = E_v·s / (683·∫V·s dλ).

    Parameters
    ----------
    illuminance_lx : array_like, shape (...)
        Illuminance. [lx]
    wavelength_nm : numpy.ndarray, shape (n,)
        Rising wavelengths. [nm]
    relative : numpy.ndarray, shape (n,)
        Relative spectral power s(λ).
    photopic : numpy.ndarray, shape (n,)
        CIE 1924 V(λ) on the same grid.

    Returns
    -------
    numpy.ndarray, shape (..., n)
        Spectral irradiance. [W/(m²·nm)]

    Raises
    ------
    ValueError
        The source gives no visible light, so no lux reading can scale it.
    """
    per_lux = relative / _visible(wavelength_nm, relative, photopic)
    return np.asarray(np.multiply.outer(np.asarray(illuminance_lx, dtype=np.float64), per_lux))


def luminous_efficacy(
    wavelength_nm: FloatArray, relative: FloatArray, photopic: FloatArray
) -> float:
    """Luminous efficacy of radiation within the grid, in lm/W.

    It depends on where the grid ends: illuminant A has 155 lm/W from 300 to 780 nm and
    16.5 lm/W over all of its radiation.
    """
    return _visible(wavelength_nm, relative, photopic) / float(integral(wavelength_nm, relative))


def irradiance_per_lux(
    wavelength_nm: FloatArray, relative: FloatArray, photopic: FloatArray
) -> float:
    """Irradiance within the grid for one lux, in W/(m²·lx)."""
    return 1.0 / luminous_efficacy(wavelength_nm, relative, photopic)


def photocurrent_density(
    wavelength_nm: FloatArray, irradiance_w_per_m2_nm: FloatArray, eqe: ArrayLike
) -> FloatArray:
    """Photocurrent density, j = (q/hc)·∫EQE·λ·E_λ dλ.

    Parameters
    ----------
    wavelength_nm : numpy.ndarray, shape (n,)
        Rising wavelengths. [nm]
    irradiance_w_per_m2_nm : numpy.ndarray, shape (..., n)
        Spectral irradiance. [W/(m²·nm)]
    eqe : array_like, shape (n,) or ()
        Electrons per photon on the same grid.

    Returns
    -------
    numpy.ndarray, shape (...)
        Current density. [A/m²]
    """
    electrons_per_joule = wavelength_nm * 1e-9 / (PLANCK_J_S * LIGHT_SPEED_M_PER_S)
    flow = integral(wavelength_nm, irradiance_w_per_m2_nm * electrons_per_joule * np.asarray(eqe))
    return np.asarray(ELEMENTARY_CHARGE_C * flow)


def photocurrent_per_lux(
    wavelength_nm: FloatArray,
    relative: FloatArray,
    photopic: FloatArray,
    eqe_wavelength_nm: FloatArray,
    eqe: FloatArray,
) -> float:
    """Photocurrent density that a cell gives for one lux of a source.

    Parameters
    ----------
    wavelength_nm : numpy.ndarray, shape (n,)
        Rising wavelengths; what lies outside 300 to 1200 nm is left out. [nm]
    relative : numpy.ndarray, shape (n,)
        Relative spectral power s(λ).
    photopic : numpy.ndarray, shape (n,)
        CIE 1924 V(λ) on the same grid.
    eqe_wavelength_nm, eqe : numpy.ndarray, shape (m,)
        Table of the external quantum efficiency, zero outside it. [nm], electrons per photon

    Returns
    -------
    float
        Current density per lux. [A/(m²·lx)]

    Raises
    ------
    ValueError
        The source gives no visible light.
    """
    answers = np.interp(wavelength_nm, eqe_wavelength_nm, eqe, left=0.0, right=0.0)
    answers[(wavelength_nm < BAND_NM[0]) | (wavelength_nm > BAND_NM[1])] = 0.0
    one_lux = spectral_irradiance(1.0, wavelength_nm, relative, photopic)
    return float(photocurrent_density(wavelength_nm, one_lux, answers))


def _visible(wavelength_nm: FloatArray, relative: FloatArray, photopic: FloatArray) -> float:
    lumens = float(illuminance(wavelength_nm, relative, photopic))
    if not lumens > 0.0:
        raise ValueError(say("The source gives no visible light, so lux say nothing about it."))
    return lumens
