"""Planck's law and the detailed-balance limit: what spectra and panels are held against."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from explorer.physics.arrays import FloatArray
from explorer.physics.constants import BOLTZMANN_J_PER_K, ELEMENTARY_CHARGE_C
from explorer.physics.light import LIGHT_SPEED_M_PER_S, PLANCK_J_S

REFERENCE_K = 298.15
"""25 °C, at which cell parameters are given."""
_SERIES_TERMS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class DetailedBalance:
    """Greatest possible output of one junction; arrays follow the shape of the band gaps."""

    short_circuit_a_per_m2: FloatArray
    """Current density at zero volts. [A/m²]"""
    open_circuit_v: FloatArray
    """Voltage at zero current. [V]"""
    saturation_a_per_m2: FloatArray
    """Radiative saturation current density. [A/m²]"""
    max_power_w_per_m2: FloatArray
    """Largest output. [W/m²]"""

    @property
    def fill_factor(self) -> FloatArray:
        """Largest output over the product of open-circuit voltage and short-circuit current."""
        return self.max_power_w_per_m2 / (self.open_circuit_v * self.short_circuit_a_per_m2)


def planck(wavelength_nm: ArrayLike, temperature_k: float) -> FloatArray:
    """Spectral radiance of a black body, Planck's law.

    Parameters
    ----------
    wavelength_nm : array_like
        Wavelengths in vacuum. [nm]
    temperature_k : float
        Temperature. [K]

    Returns
    -------
    numpy.ndarray
        Radiance, same shape as ``wavelength_nm``. [W/(m²·sr·nm)]
    """
    metre = np.asarray(wavelength_nm, dtype=np.float64) * 1e-9
    photon_j = PLANCK_J_S * LIGHT_SPEED_M_PER_S / metre
    radiance = (
        2.0
        * PLANCK_J_S
        * LIGHT_SPEED_M_PER_S**2
        / metre**5
        / np.expm1(photon_j / (BOLTZMANN_J_PER_K * temperature_k))
    )
    return np.asarray(radiance * 1e-9)


def detailed_balance(
    wavelength_nm: FloatArray,
    irradiance_w_per_m2_nm: FloatArray,
    band_gap_ev: ArrayLike,
    temperature_k: float = REFERENCE_K,
) -> DetailedBalance:
    """Detailed-balance limit of one junction with a sharp absorption edge.

    Every photon above the gap gives one electron; the only loss is the cell's own thermal
    radiation from its front (Shockley & Queisser 1961, doi 10.1063/1.1736034).

    Parameters
    ----------
    wavelength_nm : numpy.ndarray, shape (n,)
        Rising wavelengths. [nm]
    irradiance_w_per_m2_nm : numpy.ndarray, shape (n,)
        Spectral irradiance. [W/(m²·nm)]
    band_gap_ev : array_like, shape (...)
        Band gaps. [eV]
    temperature_k : float, optional
        Temperature of the cell. [K]

    Returns
    -------
    DetailedBalance
        The limits, in the shape of ``band_gap_ev``.
    """
    gap = np.asarray(band_gap_ev, dtype=np.float64)
    thermal_v = BOLTZMANN_J_PER_K * temperature_k / ELEMENTARY_CHARGE_C
    short_circuit = _current_above(wavelength_nm, irradiance_w_per_m2_nm, gap)
    saturation = _radiative_saturation(gap / thermal_v, temperature_k)
    ratio = short_circuit / saturation
    # At the largest V·I: (1 + x)·e^x = 1 + J_sc/J_0 with x = V/kT, solved by Newton's method
    # for y = 1 + x in y + ln y = 1 + ln(1 + J_sc/J_0), which is smooth and almost straight.
    target = 1.0 + np.log1p(ratio)
    y = np.maximum(target - np.log(np.maximum(target, 1.0)), 1.0)
    for _ in range(5):
        y = y - (y + np.log(y) - target) / (1.0 + 1.0 / y)
    x = y - 1.0
    return DetailedBalance(
        short_circuit_a_per_m2=short_circuit,
        open_circuit_v=np.asarray(thermal_v * np.log1p(ratio)),
        saturation_a_per_m2=saturation,
        max_power_w_per_m2=np.asarray(thermal_v * x * (short_circuit - saturation * np.expm1(x))),
    )


def _current_above(
    wavelength_nm: FloatArray, irradiance_w_per_m2_nm: FloatArray, gap_ev: FloatArray
) -> FloatArray:
    """Photon current below the gap's wavelength, its last step cut at the gap, in A/m²."""
    per_nm = (
        ELEMENTARY_CHARGE_C
        * irradiance_w_per_m2_nm
        * wavelength_nm
        * 1e-9
        / (PLANCK_J_S * LIGHT_SPEED_M_PER_S)
    )
    edge_nm = np.clip(
        PLANCK_J_S * LIGHT_SPEED_M_PER_S / (gap_ev * ELEMENTARY_CHARGE_C) * 1e9,
        wavelength_nm[0],
        wavelength_nm[-1],
    )
    steps = 0.5 * (per_nm[1:] + per_nm[:-1]) * np.diff(wavelength_nm)
    running = np.concatenate(([0.0], np.cumsum(steps)))
    left = np.clip(
        np.searchsorted(wavelength_nm, edge_nm, side="right") - 1, 0, wavelength_nm.size - 2
    )
    at_edge = np.interp(edge_nm, wavelength_nm, per_nm)
    part = 0.5 * (per_nm[left] + at_edge) * (edge_nm - wavelength_nm[left])
    return np.asarray(running[left] + part)


def _radiative_saturation(gap_over_kt: FloatArray, temperature_k: float) -> FloatArray:
    """J_0 = q·2π/(c²h³)·∫E²/(e^(E/kT) − 1) dE from the gap up, as a series, in A/m²."""
    scale = (
        ELEMENTARY_CHARGE_C
        * 2.0
        * np.pi
        * (BOLTZMANN_J_PER_K * temperature_k) ** 3
        / (LIGHT_SPEED_M_PER_S**2 * PLANCK_J_S**3)
    )
    n = np.arange(1, _SERIES_TERMS + 1)
    u = gap_over_kt[..., np.newaxis]
    terms = np.exp(-n * u) * (u**2 / n + 2.0 * u / n**2 + 2.0 / n**3)
    return np.asarray(scale * terms.sum(axis=-1))
