"""Export the tables of ``resources/`` from open libraries; run by hand, not by the tests.

``python tests/make_resources.py`` writes spectra and open-circuit voltages anew and the
crystalline response into its cell file. Needs colour-science, pvlib and scipy, which the
program itself does not.
"""

from __future__ import annotations

import json
from pathlib import Path

import colour
import numpy as np
import pvlib
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

from explorer.resource_files import read_table
from tests.radiation import planck

FloatArray = NDArray[np.float64]
RESOURCES = Path(__file__).resolve().parent.parent / "resources"

CIE = {
    "led_2700": ("LED-B1", "phosphor white LED, about 2700 K"),
    "led_3000": ("LED-B2", "phosphor white LED, about 3000 K"),
    "led_4000": ("LED-B3", "phosphor white LED, about 4100 K"),
    "led_5000": ("LED-B4", "phosphor white LED, about 5100 K"),
    "led_6600": ("LED-B5", "phosphor white LED, about 6600 K"),
    "led_violet": ("LED-V1", "white LED pumped by a violet diode, about 2700 K"),
    "fluorescent_cool": ("FL2", "cool-white fluorescent lamp, about 4200 K"),
    "fluorescent_5000": ("FL10", "three-band fluorescent lamp, about 5000 K"),
    "fluorescent_4000": ("FL11", "three-band fluorescent lamp, about 4000 K"),
}
COLOUR_LICENCE = "colour-science, BSD-3-Clause; values of CIE 015 and CIE S 010"
G173_ORIGIN = (
    "ASTM G173-03 global tilt, air mass 1.5, as shipped with pvlib (get_reference_spectra); W/m2/nm"
)
PVLIB_LICENCE = "pvlib, BSD-3-Clause"

GLASS_NM = (300, 340, 380, 400, 450, 500, 550, 600, 650, 700, 750, 800, 900, 1000, 1100, 1200)
GLASS = (0, 0.02, 0.2, 0.34, 0.52, 0.68, 0.74, 0.66, 0.46, 0.29, 0.2, 0.16, 0.12, 0.09, 0.07, 0.06)
"""Transmission of an infrared-cutting coated pane. Modelled: chosen so that crystalline and
amorphous panels gain in daylight what tests/outside/data/indoor_places measured."""

POSITIVE_MOL = 0.62 * 6.8e-5 * 49943
NEGATIVE_MOL = 0.61 * 7.65e-5 * 28746
LITHIUM_MOL = 24108 / 28746 * NEGATIVE_MOL + 21725 / 49943 * POSITIVE_MOL
"""Active share x thickness [m] x greatest concentration [mol/m3] of both electrodes and the
lithium in them, Ai et al. 2020 (from memory; the result reproduces the published-shape row of
tests/outside/test_open_circuit_curves.py within 1 mV)."""
WINDOW_V = (3.0, 4.2)

SOC_PERCENT = (0, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95, 100)
IRON_PHOSPHATE_V = (
    2.0, 2.7853, 2.9781, 3.1685, 3.2058, 3.2525, 3.266, 3.2688, 3.274, 3.3097, 3.3142, 3.3164, 3.6
)  # fmt: skip


def write(path: Path, notes: dict[str, str], columns: dict[str, FloatArray], form: str) -> None:
    """Write one table with its notes at the head."""
    head = "".join(f"# {key}: {text}\n" for key, text in notes.items())
    rows = "\n".join(
        ",".join(format(value, form) for value in row)
        for row in np.column_stack(list(columns.values()))
    )
    path.write_text(f"{head}{','.join(columns)}\n{rows}\n", encoding="utf-8")


def spectrum(name: str, notes: dict[str, str], wavelength: FloatArray, values: FloatArray) -> None:
    """Write one spectrum."""
    write(
        RESOURCES / "spectra" / f"{name}.csv",
        notes,
        {"wavelength_nm": wavelength, "relative": values},
        ".7g",
    )


def spectra() -> None:
    """Write all light sources and the photopic response of the eye."""
    for name, (cie, words) in CIE.items():
        sd = colour.SDS_ILLUMINANTS[cie]
        notes = {
            "origin": f"CIE illuminant {cie}: {words}",
            "licence": COLOUR_LICENCE,
            "kind": "tabulated",
            "notes": "relative spectral power; nothing is known outside the table, taken as zero",
        }
        spectrum(name, notes, sd.wavelengths, sd.values)
    eye = colour.colorimetry.SDS_LEFS_PHOTOPIC["CIE 1924 Photopic Standard Observer"]
    write(
        RESOURCES / "spectra" / "photopic.csv",
        {
            "origin": "CIE 1924 photopic luminous efficiency V(lambda)",
            "licence": COLOUR_LICENCE,
            "kind": "tabulated",
            "notes": "1 nm steps, peak 1 at 555 nm",
        },
        {"wavelength_nm": eye.wavelengths, "photopic": eye.values},
        ".7g",
    )
    wavelength = np.arange(300.0, 1201.0, 2.0)
    lamp = planck(wavelength, 2856.0)
    spectrum(
        "incandescent",
        {
            "origin": "CIE illuminant A as Planck's law at 2856 K, scaled to 100 at 560 nm",
            "licence": "computed, free of rights",
            "kind": "modelled",
            "notes": "goes on to 1200 nm, where crystalline silicon still answers",
        },
        wavelength,
        100.0 * lamp / planck(np.array([560.0]), 2856.0),
    )
    sky = pvlib.spectrum.get_reference_spectra(standard="ASTM G173-03")["global"]
    sky_nm = sky.index.to_numpy(dtype=float)
    spectrum(
        "daylight_open",
        {
            "origin": G173_ORIGIN,
            "licence": PVLIB_LICENCE,
            "kind": "tabulated",
            "notes": "sun and sky with nothing in between",
        },
        sky_nm,
        sky.to_numpy(dtype=float),
    )
    seen = (sky_nm >= 300.0) & (sky_nm <= 1200.0)
    behind = sky.to_numpy(dtype=float)[seen] * np.interp(sky_nm[seen], GLASS_NM, GLASS)
    pane = " ".join(f"{nm}:{share:g}" for nm, share in zip(GLASS_NM, GLASS, strict=True))
    spectrum(
        "daylight_glass",
        {
            "origin": "ASTM G173-03 global times the transmission of a coated pane",
            "licence": PVLIB_LICENCE,
            "kind": "modelled",
            "notes": f"pane, wavelength in nm:transmission {pane}; chosen so that panels gain in"
            " daylight what was measured indoors (crystalline 1.3 to 1.46 times as much per lux"
            " as under lamps, amorphous the same within 6 percent)",
        },
        sky_nm[seen],
        behind,
    )


def chemistries() -> None:
    """Write open-circuit voltage against state of charge of three chemistries."""
    soc = np.linspace(0.0, 1.0, 201)
    halves = RESOURCES / "chemistry" / "half_cells"
    positive = np.genfromtxt(halves / "lico2_ocp_Ai2020.csv", delimiter=",")
    negative = np.genfromtxt(halves / "graphite_ocp_Enertech_Ai2020.csv", delimiter=",")

    def upper(y: FloatArray | float) -> FloatArray:
        return np.asarray(np.interp(y, positive[:, 0], positive[:, 1]))

    def lower(x: FloatArray | float) -> FloatArray:
        return np.asarray(np.interp(x, negative[:, 0], negative[:, 1]))

    def filled(x: FloatArray | float) -> FloatArray | float:
        return (LITHIUM_MOL - x * NEGATIVE_MOL) / POSITIVE_MOL

    def over(x: float, target: float) -> float:
        return float(upper(filled(x)) - lower(x)) - target

    x_empty = brentq(over, 0.0006, 0.3, args=(WINDOW_V[0],))
    x_full = brentq(over, 0.5, 0.99, args=(WINDOW_V[1],))
    x = x_empty + (x_full - x_empty) * soc
    half_licence = "PyBaMM example data, BSD-3-Clause, half_cells/LICENSE.txt"
    _chemistry(
        "lithium_ion",
        {
            "origin": "lithium cobalt oxide against graphite, half-cell data of Ai et al. 2020 and"
            " Rieger 2016, difference of electrode potentials over 3.0 to 4.2 V",
            "licence": half_licence,
            "kind": "modelled",
            "notes": "electrode balance from memory; shape good to about 10 mV",
            "nominal_V": "3.7",
        },
        soc,
        upper(filled(x)) - lower(x),
    )
    curve = PchipInterpolator(np.array(SOC_PERCENT) / 100.0, IRON_PHOSPHATE_V)
    _chemistry(
        "iron_phosphate",
        {
            "origin": "lithium iron phosphate against graphite, 13 points computed from the"
            " half-cell fits of Prada et al. 2013 as given in PyBaMM, monotone cubic between",
            "licence": "PyBaMM, BSD-3-Clause",
            "kind": "modelled",
            "notes": "2.0 to 3.6 V; no hysteresis between charge and discharge",
            "nominal_V": "3.2",
        },
        soc,
        curve(soc),
    )
    _chemistry(
        "titanate",
        {
            "origin": "the lithium cobalt oxide electrode of lithium_ion.csv minus a flat 1.55 V"
            " for lithium titanate",
            "licence": half_licence,
            "kind": "modelled, from memory",
            "notes": "no open table of a titanate cell was found; 1.55 V and the nominal voltage"
            " are from memory; the fall of the titanate electrode near empty is left out",
            "nominal_V": "2.4",
        },
        soc,
        upper(filled(x)) - 1.55,
    )


def _chemistry(name: str, notes: dict[str, str], soc: FloatArray, volts: FloatArray) -> None:
    if np.any(np.diff(volts) <= 0.0):
        raise ValueError(f"{name}: the voltage must rise with the charge")
    write(
        RESOURCES / "chemistry" / f"{name}.csv",
        notes,
        {"state_of_charge": soc, "open_circuit_V": volts},
        ".6g",
    )


def crystalline() -> None:
    """Put pvlib's example response, scaled to 0.95 at 950 nm, into the crystalline cell."""
    path = RESOURCES / "cells" / "crystalline.json"
    cell = json.loads(path.read_text(encoding="utf-8"))
    response = pvlib.spectrum.get_example_spectral_response()
    wavelength = np.arange(300.0, 1191.0, 10.0)
    per_photon = np.interp(wavelength, response.index.to_numpy(), response.to_numpy()) / wavelength
    eqe = per_photon * 0.95 / per_photon[wavelength == 950.0]
    cell["eqe"] = {
        "wavelength_nm": wavelength.tolist(),
        "eqe": np.round(eqe, 4).tolist(),
    }
    path.write_text(_compact(cell), encoding="utf-8")


def _compact(cell: dict[str, object]) -> str:
    lines = [
        f"  {json.dumps(key)}: {json.dumps(value, ensure_ascii=False)}"
        for key, value in cell.items()
    ]
    return "{\n" + ",\n".join(lines) + "\n}\n"


if __name__ == "__main__":
    spectra()
    chemistries()
    crystalline()
    for table in sorted((RESOURCES / "spectra").glob("*.csv")):
        print(table.name, {key: len(values) for key, values in read_table(table).items()})
